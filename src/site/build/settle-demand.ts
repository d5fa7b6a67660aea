/**
 * The use of alkalinity where the file does not say it: a tank is described as it normally runs, and a tank that runs
 * steadily uses what it is given.
 */
import { formatQuantity } from "../../foundation/index.ts";
import { MEQ_PER_L_PER_DKH } from "../../science/index.ts";
import type { BODY_KEYS } from "../keys/bodies.ts";
import { LIVESTOCK_KEYS } from "../keys/bodies.ts";
import type { Body, Device } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import type { Building } from "./building.ts";
import { rounded } from "./building.ts";

/** Saturated limewater at about 22 degC, meq of alkalinity in a litre. */
const LIMEWATER_MEQ_PER_L = 42;
/** Effluent of a calcium reactor, 40 dKH, as the twin has it. */
const REACTOR_MEQ_PER_L = 14.3;
/** Evaporation from open water in a heated room, L a day from each square metre. */
const EVAPORATION_L_PER_M2_DAY = 4.5;
const UNDOSED_SOFT_DKH = 0.1;
const UNDOSED_STONY_DKH = 0.2;

/** Alkalinity that the devices give a system a day, meq. */
export function alkalinityGivenMeqPerDay(system: string, bodies: readonly Body[], devices: readonly Device[]): number {
  const own = bodies.filter((body) => body.system === system && body.holds.kind === "salt");
  const openM2 = own.filter((body) => body.lid === "open").reduce((total, body) => total + body.surfaceM2, 0);
  let meq = 0;
  for (const device of devices.filter((entry) => entry.system === system && entry.spare === null)) {
    if (device.kind === "calcium-reactor") meq += device.flowLPerH * 24 * REACTOR_MEQ_PER_L;
    const source = bodies.find((body) => body.id === device.from);
    if (source === undefined) continue;
    if (device.kind === "doser" && source.holds.kind === "solution" && source.holds.of === "alkalinity") {
      meq += device.amountPerDay * source.holds.strengthPerML;
    }
    if (device.kind === "doser" && source.holds.kind === "limewater")
      meq += (device.amountPerDay / 1000) * LIMEWATER_MEQ_PER_L;
    if (device.kind === "top-off" && source.holds.kind === "limewater")
      meq += EVAPORATION_L_PER_M2_DAY * openM2 * LIMEWATER_MEQ_PER_L;
  }
  return meq;
}

/** Circulating water of a system, L: that of which a test kit tells the alkalinity. */
function circulatingL(system: string, bodies: readonly Body[]): number {
  const own = bodies.filter((body) => body.system === system && body.role !== "reservoir" && body.role !== "container");
  return own.reduce((total, body) => total + body.volumeL, 0);
}

/** Bodies whose livestock leaves `alkalinity-use` out share what is given, less what others are said to use. */
export function settleDemand(
  building: Building,
  parts: readonly WrittenPart<typeof BODY_KEYS>[],
  bodies: readonly Body[],
  devices: readonly Device[],
): readonly Body[] {
  const written = new Map(
    parts.map((part) => [part.id, part.written.livestock?.value["alkalinity-use"] !== undefined]),
  );
  return bodies.map((body) => {
    if (body.livestock.corals === null || written.get(body.id) === true) return body;
    const peers = bodies.filter((other) => other.system === body.system && other.livestock.corals !== null);
    const said = peers.filter((other) => written.get(other.id) === true);
    const silent = peers.filter((other) => written.get(other.id) !== true);
    const given = alkalinityGivenMeqPerDay(body.system, bodies, devices);
    const givenDKH = given / MEQ_PER_L_PER_DKH / circulatingL(body.system, bodies);
    const usedDKH = said.reduce((total, other) => total + other.livestock.alkalinityDemandDKHPerDay, 0);
    const share = body.volumeL / silent.reduce((total, other) => total + other.volumeL, 0);
    const undosed = body.livestock.corals === "soft" ? UNDOSED_SOFT_DKH : UNDOSED_STONY_DKH;
    const demand = given > 0 ? rounded(Math.max(0, givenDKH - usedDKH) * share, 3) : undosed;
    const field = LIVESTOCK_KEYS["alkalinity-use"];
    building.noteDefault(
      body.id,
      "alkalinity-use",
      formatQuantity(demand, "alkalinity per day"),
      field.weight,
      field.why,
      building.lineOf(body.id),
    );
    return { ...body, livestock: { ...body.livestock, alkalinityDemandDKHPerDay: demand } };
  });
}
