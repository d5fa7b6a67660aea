/** Systems and their bodies of water, from what was written of them. */
import { BODY_KEYS, LIVESTOCK_KEYS, SYSTEM_KEYS } from "../keys/bodies.ts";
import type { Body, BodyRole, Livestock, Room, System } from "../model.ts";
import type { Written, WrittenPart } from "../shape/fields.ts";
import type { SharedWater } from "./build-water.ts";
import { buildWater } from "./build-water.ts";
import type { Building } from "./building.ts";
import { rounded, takerFor } from "./building.ts";
import { surfaceFrom, usualBrimL, usualDepthM, usualIntakeL, usualWallsWPerK } from "./usual-sizes.ts";

type WrittenBody = WrittenPart<typeof BODY_KEYS>;
type WrittenSystem = WrittenPart<typeof SYSTEM_KEYS>;

/** No pump draws the last drop: this share of the volume stays below any intake. */
const LAST_DROP_SHARE = 0.001;

/** Rock and sand take up room, so that water fills at least this share of the box; a little more than all is rounding. */
const LEAST_WATER_SHARE = 0.4;
const MOST_WATER_SHARE = 1.1;
const CORAL_SHARE_OF_SURFACE = 0.4;
const ROCK_KG_PER_L = 0.1;

function usualRole(body: WrittenBody, system: WrittenSystem): BodyRole {
  const holds = body.written.holds?.value.kind ?? "salt";
  if (holds === "fresh" || holds === "limewater") return "reservoir";
  if (holds === "solution") return "container";
  const flows = (system.written.circulation?.value ?? []).map((flow) => flow.value);
  const life = body.written.livestock?.value;
  if (flows.some((flow) => flow.from?.value === body.id) && life?.corals === undefined && life?.fish === undefined)
    return "sump";
  const circulates = flows.some((flow) => flow.from?.value === body.id || flow.to?.value === body.id);
  return flows.length > 0 && !circulates && life === undefined ? "reservoir" : "display";
}

function buildLivestock(
  building: Building,
  id: string,
  line: number,
  written: Written<typeof LIVESTOCK_KEYS>,
  surfaceM2: number,
): Livestock {
  const take = takerFor(building, id, line, LIVESTOCK_KEYS, written);
  // With one kind of animal written, that there is none of another is no surprise.
  const weight = Object.keys(written).length > 0 ? 3 : undefined;
  const corals = take("corals", null, weight);
  const fishG = take("fish", 0, weight);
  return {
    corals,
    coralM2:
      corals === null
        ? (written["coral-area"]?.value ?? 0)
        : take("coral-area", rounded(CORAL_SHARE_OF_SURFACE * surfaceM2, 3)),
    // Settled by `settleDemand` where it is left out, when the dosers are known.
    alkalinityDemandDKHPerDay: written["alkalinity-use"]?.value ?? 0,
    fishG,
    fishGroup: fishG > 0 ? take("fish-kind", "reef-fish") : null,
    invertebrates: take("invertebrates", corals !== null),
    plantsG: take("plants", 0),
  };
}

const NOTHING: Livestock = {
  corals: null,
  coralM2: 0,
  alkalinityDemandDKHPerDay: 0,
  fishG: 0,
  fishGroup: null,
  invertebrates: false,
  plantsG: 0,
};

function livestockOf(building: Building, body: WrittenBody, role: BodyRole, surfaceM2: number): Livestock {
  const { id, written } = body;
  if (written.livestock !== undefined)
    return buildLivestock(building, id, written.livestock.place.line, written.livestock.value, surfaceM2);
  if (role === "display" || role === "frag" || role === "refugium") {
    building.noteDefault(id, "livestock", "nothing", 1, BODY_KEYS.livestock.why, body.idPlace.line);
  }
  return NOTHING;
}

/** Surface and depth: each from the other where one is left out, both as usual where both are. */
function shapeOf(body: WrittenBody, role: BodyRole, volumeL: number): { surface: number; depth: number } {
  const { surface, depth } = body.written;
  const usual = usualDepthM(role, volumeL);
  if (surface !== undefined)
    return { surface: surface.value, depth: depth?.value ?? rounded(volumeL / 1000 / surface.value, 3) };
  return { surface: surfaceFrom(volumeL, depth?.value ?? usual), depth: depth?.value ?? usual };
}

function checkBody(building: Building, part: WrittenBody, body: Body): void {
  const { id, written } = part;
  const { volume, brim, intake, surface, depth } = written;
  if (brim !== undefined && body.brimL < body.volumeL) {
    building.error(
      brim,
      `${id}.brim`,
      "body/brim",
      `the brim of ${body.brimL} L lies below the ${body.volumeL} L of water in it`,
      "brim is what it holds to the rim, volume what is in it in normal running",
    );
  }
  if (intake !== undefined && body.intakeL >= body.volumeL) {
    building.error(
      intake,
      `${id}.intake`,
      "body/intake",
      `a pump that needs ${body.intakeL} L can not draw from ${body.volumeL} L`,
      "intake is the least water at which a pump still draws: less than volume",
    );
  }
  if (written["heater-dry"] !== undefined && body.heaterDryL >= body.volumeL) {
    building.error(
      written["heater-dry"],
      `${id}.heater-dry`,
      "body/heater-dry",
      `a heater that is dry below ${body.heaterDryL} L is dry in normal running (${body.volumeL} L)`,
      "heater-dry must be less than volume",
    );
  }
  if (surface === undefined || volume === undefined) return;
  const boxL = body.surfaceM2 * body.depthM * 1000;
  if (depth !== undefined && (volume.value > boxL * MOST_WATER_SHARE || volume.value < boxL * LEAST_WATER_SHARE)) {
    building.error(
      surface,
      `${id}.surface`,
      "body/shape",
      `${body.surfaceM2} m2 and ${body.depthM} m deep make ${rounded(boxL, 1)} L, but volume says ${body.volumeL} L`,
      "surface times depth is the volume, a little less for rock and sand: check the units",
    );
  }
  if (depth === undefined && (body.depthM > 10 || body.depthM < 0.01)) {
    building.error(
      surface,
      `${id}.surface`,
      "body/shape",
      `${body.volumeL} L over ${body.surfaceM2} m2 would be ${body.depthM} m deep`,
      "check the unit of the surface: a 400 L tank has about 0.7 m2",
    );
  }
}

/** The salt water that a system's bodies share: that of the first body which says it, those with livestock first. */
function sharedWater(building: Building, system: WrittenSystem): SharedWater | null {
  const saying = (system.written.bodies?.value ?? []).filter((body) => body.written.holds?.value.kind === "salt");
  const main = saying.find((body) => body.written.livestock !== undefined) ?? saying[0];
  if (main === undefined) return null;
  return {
    of: main.id,
    water: buildWater(building, main.id, main.idPlace.line, main.written.holds?.value ?? null, null),
  };
}

function buildBody(
  building: Building,
  part: WrittenBody,
  system: WrittenSystem,
  systemRoom: string,
  shared: SharedWater | null,
): Body {
  const { id, written } = part;
  const line = part.idPlace.line;
  const take = takerFor(building, id, line, BODY_KEYS, written);
  const role = take("role", usualRole(part, system));
  const stored = role === "reservoir" || role === "container";
  // The shape of a barrel hardly matters: nothing lives in it.
  const weight = stored ? 3 : undefined;
  const volumeL = written.volume?.value ?? 1;
  const shape = shapeOf(part, role, volumeL);
  const surfaceM2 = take("surface", shape.surface, weight);
  const depthM = take("depth", shape.depth);
  const holds = buildWater(building, id, line, written.holds?.value ?? null, shared);
  if (written.room !== undefined) building.refers(written.room.value, written.room.place, ["room"], `${id}.room`);
  const body: Body = {
    id,
    system: system.id,
    room: written.room?.value ?? systemRoom,
    role,
    volumeL,
    brimL: take("brim", usualBrimL(role, volumeL, surfaceM2), weight),
    intakeL: Math.max(take("intake", usualIntakeL(role, volumeL), weight), LAST_DROP_SHARE * volumeL),
    heaterDryL: take("heater-dry", rounded(0.6 * volumeL, 2), weight),
    surfaceM2,
    depthM,
    lid: take("lid", stored ? "lid" : "open"),
    wallsWPerK: take("walls", usualWallsWPerK(surfaceM2, depthM), weight),
    holds,
    livestock: livestockOf(building, part, role, surfaceM2),
    rockKg: take("rock", role === "display" ? rounded(ROCK_KG_PER_L * volumeL, 1) : 0),
    sandKg: take("sand", 0),
    fill: take("fill", 1, stored ? 2 : 3),
  };
  checkBody(building, part, body);
  return body;
}

export function buildSystems(
  building: Building,
  parts: readonly WrittenSystem[],
  rooms: readonly Room[],
): { readonly systems: readonly System[]; readonly bodies: readonly Body[] } {
  const systems: System[] = [];
  const bodies: Body[] = [];
  for (const part of parts) {
    const take = takerFor(building, part.id, part.idPlace.line, SYSTEM_KEYS, part.written);
    const room = take("room", rooms[0].id);
    if (part.written.room !== undefined) building.refers(room, part.written.room.place, ["room"], `${part.id}.room`);
    const shared = sharedWater(building, part);
    const own = (part.written.bodies?.value ?? []).map((body) => buildBody(building, body, part, room, shared));
    if (own.length === 0 && part.written.bodies !== undefined) {
      building.error(
        part.written.bodies,
        `${part.id}.bodies`,
        "system/empty",
        "a system needs at least one body of water",
        "add one like display: { volume: 200 L }",
      );
    }
    bodies.push(...own);
    systems.push({ id: part.id, bodies: own.map((body) => body.id), room });
  }
  return { systems, bodies };
}
