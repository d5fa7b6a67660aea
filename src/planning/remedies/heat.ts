/** Remedies about warmth: heaters that cannot cook, cannot leave it cold, and are not all of one make. */
import type { Device, Site } from "../../site/index.ts";
import { concerns } from "./finding.ts";
import { carries, guardOf, roomsOn, socketCircuits } from "./loads.ts";
import { bodyOf, devicesIn, home, keptAtC } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { cutOutNotice } from "./watching-devices.ts";
import { degC, freeName, keys, set, watts } from "./writing.ts";

const WET_HANDS = "Unplug every device in the water before your hand goes in, and let a heater cool under water first.";
/** The trade sets a heater's own thermostat 1 to 1.5 K above what is held, and a cut-out 2 K above. */
const OWN_ABOVE_K = 1;
const APART_K = 0.3;
const CUT_OUT_ABOVE_K = 2;
const SPARE_BELOW_K = 1.5;
/** That of a spare lies higher, so that a warm afternoon is not taken for its rescue. */
const SPARE_CUT_OUT_ABOVE_K = 3;
/** Each of two heaters gets this share of the one that they replace. */
const HALF_SHARE = 0.6;

export function heatRemedies(site: Site): readonly Draft[] {
  return [
    ...site.systems.flatMap(({ id }) => ofSystem(site, id)),
    ...site.devices.flatMap((device) => withoutHubOff(site, device)),
  ];
}

function ofSystem(site: Site, system: string): readonly Draft[] {
  const heaters = devicesIn(site, system, "heater");
  const working = heaters.filter(({ spare }) => spare === null);
  if (working.length === 0) return [];
  return [
    ...ownThermostat(site, system, heaters),
    ...cutOut(site, system, heaters),
    ...twoHeaters(site, working),
    ...spareHeater(site, system, heaters),
    ...otherBatch(system, working),
  ];
}

function waterC(site: Site, device: Device): number {
  const body = bodyOf(site, device.in);
  return body === null ? 25.5 : keptAtC(body);
}

function names(devices: readonly Device[]): string {
  return devices.map(({ id }) => id).join(" and ");
}

/** Parts whose failure makes a hub heat on: sensors that it reads in the system, its rules, its sockets, itself. */
function misleads(site: Site, system: string, part: string): boolean {
  const heaters = devicesIn(site, system, "heater");
  const hubs = new Set(heaters.map(({ by }) => by));
  return (
    hubs.has(part) ||
    site.rules.some(({ id, act }) => id === part && act.some(({ device }) => heaters.some((one) => one.id === device)))
  );
}

function ownThermostat(site: Site, system: string, heaters: readonly Device[]): readonly Draft[] {
  const bare = heaters.filter(({ ownThermostatC }) => ownThermostatC === null);
  if (bare.length === 0) return [];
  return [
    {
      kind: "own-thermostat",
      of: system,
      title: `A thermostat of its own for ${names(bare)}, 1 °C above what the hub holds`,
      parts: bare.map(({ id }) => id),
      edits: bare.map((heater, index) =>
        set(
          ["devices", heater.id, "own-thermostat"],
          degC(waterC(site, heater) + OWN_ABOVE_K - APART_K * Math.min(index, 2)),
        ),
      ),
      why: "A hub, a sensor or a socket that fails can then heat no further than the dial.",
      needs: "Heaters with a dial, set against a thermometer that you trust, one a little lower than the next.",
      caution: WET_HANDS,
      times: bare.length,
      meets: (finding) =>
        (finding.stressor === "heat" || finding.mode === "surges") &&
        (concerns(finding, system) || misleads(site, system, finding.part)) &&
        finding.mode !== "stays-on",
    },
  ];
}

function cutOut(site: Site, system: string, heaters: readonly Device[]): readonly Draft[] {
  const bare = heaters.filter(({ cutOutC }) => cutOutC === null);
  if (bare.length === 0) return [];
  const at = (heater: Device) => Math.max(waterC(site, heater) + CUT_OUT_ABOVE_K, (heater.ownThermostatC ?? 0) + 1.5);
  return [
    {
      kind: "cut-out",
      of: system,
      title: `An independent cut-out for ${names(bare)}, and a notice below it`,
      parts: bare.map(({ id }) => id),
      edits: bare
        .flatMap((heater) => [
          set(["devices", heater.id, "cut-out"], degC(at(heater))),
          set(["devices", heater.id, "tested"], "1 month"),
        ])
        .concat(cutOutNotice(site, bare[0], Math.min(...bare.map(at)), waterC(site, bare[0]))),
      why: "It opens the heater's own supply when the water passes its point, whatever hub, sensor or relay say.",
      needs:
        "A thermostat of its own in series with each heater, its feeler in the water beside it, tried in a warm cup now and every three months.",
      caution: WET_HANDS,
      times: bare.length,
      meets: (finding) =>
        finding.stressor === "heat" && (concerns(finding, system) || misleads(site, system, finding.part)),
    },
  ];
}

/** A circuit in the heater's room under another protective device that bears so much more, else its own; null: none bears it. */
export function otherCircuit(site: Site, device: Device, powerW: number): string | null {
  const room = bodyOf(site, device.in)?.room ?? "";
  const load = [{ id: "", powerW, on: null }];
  const fits = socketCircuits(site)
    .map(({ id }) => id)
    .filter((id) => roomsOn(site, id).has(room) && carries(site, id, load));
  return (
    fits.find((id) => guardOf(site, id) !== guardOf(site, device.on)) ??
    fits.find((id) => id !== device.on) ??
    fits[0] ??
    null
  );
}

function twoHeaters(site: Site, working: readonly Device[]): readonly Draft[] {
  const [heater] = working;
  if (working.length !== 1 || heater.powerW < 50) return [];
  const powerW = 5 * Math.ceil((heater.powerW * HALF_SHARE) / 5);
  const on = otherCircuit(site, heater, powerW);
  if (on === null) return [];
  const name = freeName(site, `${heater.id}-b`);
  const switching = site.rules.filter(({ act }) => act.some(({ device }) => device === heater.id));
  // Two without a dial would only cook twice when the hub is dead.
  const ownC = heater.ownThermostatC ?? waterC(site, heater) + OWN_ABOVE_K;
  return [
    {
      kind: "two-heaters",
      of: heater.id,
      title: `Two heaters of ${watts(powerW)} in place of ${heater.id} alone`,
      parts: [heater.id],
      edits: [
        set(["devices", heater.id, "power"], watts(powerW)),
        ...(heater.ownThermostatC === null ? [set(["devices", heater.id, "own-thermostat"], degC(ownC))] : []),
        set(
          ["devices", name],
          keys({
            kind: "heater",
            power: watts(powerW),
            in: heater.in,
            on,
            by: heater.by,
            "without-hub": heater.by === null ? null : heater.withoutHub,
            normally: heater.by === null ? null : heater.normally,
            "own-thermostat": degC(ownC - APART_K),
            "cut-out": heater.cutOutC === null ? null : degC(heater.cutOutC),
            tested: heater.cutOutC === null ? null : "1 month",
            age: "1 month",
          }),
        ),
        ...switching.flatMap(({ id, act }) =>
          act.filter(({ device }) => device === heater.id).map(({ state }) => set(["rules", id, "do", name], state)),
        ),
      ],
      why: "One that dies leaves more than half of the warmth, and one that sticks on has too little power to cook.",
      needs: `Two heaters of different make with dials of their own in ${heater.in}, the second one plugged into ${on}.`,
      caution: WET_HANDS,
      meets: (finding) => finding.part === heater.id && (finding.stressor === "cold" || finding.stressor === "heat"),
    },
  ];
}

function spareHeater(site: Site, system: string, heaters: readonly Device[]): readonly Draft[] {
  const body = home(site, system);
  if (body === null || heaters.some(({ spare }) => spare !== null)) return [];
  const largest = heaters.toSorted((a, b) => b.powerW - a.powerW)[0];
  const powerW = 25 * Math.max(1, Math.round((heaters.reduce((sum, one) => sum + one.powerW, 0) * HALF_SHARE) / 25));
  const on = otherCircuit(site, largest, powerW);
  if (on === null) return [];
  const name = freeName(site, `${body.id}-spare-heater`);
  return [
    {
      kind: "spare-heater",
      of: system,
      title: `A spare heater that waits in ${body.id}, set 1.5 °C lower`,
      parts: [body.id, ...heaters.map(({ id }) => id)],
      edits: [
        set(["devices", name], {
          kind: "heater",
          power: watts(powerW),
          in: body.id,
          on,
          "own-thermostat": degC(keptAtC(body) - SPARE_BELOW_K),
          "cut-out": degC(keptAtC(body) + SPARE_CUT_OUT_ABOVE_K),
          spare: { "last-tried": "1 month" },
          normally: "on",
          tested: "1 month",
          age: "1 month",
        }),
      ],
      why: `It warms where the animals are, by itself, when the heaters or the flow from them fail.`,
      needs: `A heater with a dial and a cut-out in ${body.id}, plugged into ${on}, tried every month by turning its dial up.`,
      caution: WET_HANDS,
      meets: (finding) =>
        finding.stressor === "cold" &&
        !stands(site, finding.part) &&
        (concerns(finding, system) || misleads(site, system, finding.part)),
    },
  ];
}

/** A return that stands: what is kept warm then lacks oxygen next. */
function stands(site: Site, part: string): boolean {
  return site.flows.some(({ id, by }) => id === part || by === part);
}

function otherBatch(system: string, working: readonly Device[]): readonly Draft[] {
  const twin = working.find(
    (one, index) => one.batch !== null && working.slice(0, index).some(({ batch }) => batch === one.batch),
  );
  if (twin === undefined) return [];
  return [
    {
      kind: "other-batch",
      of: twin.id,
      title: `Another make in place of ${twin.id}, which is of the same batch as its neighbour`,
      parts: [twin.id],
      edits: [set(["devices", twin.id, "batch"], "none"), set(["devices", twin.id, "age"], "1 month")],
      why: "Heaters of one make and age wear out together; two makes seldom do.",
      needs: `A heater of another make in place of ${twin.id}.`,
      caution: WET_HANDS,
      meets: (finding) => finding.mode.startsWith("batch-") && finding.drill.system === system,
    },
  ];
}

const STOPS_WITHOUT_HUB: readonly Device["kind"][] = ["heater", "top-off", "refill-valve", "doser", "calcium-reactor"];

/** A socket that goes off with its hub: for what does harm when it runs on and little when it rests. */
function withoutHubOff(site: Site, device: Device): readonly Draft[] {
  if (device.by === null || device.withoutHub === "off" || !STOPS_WITHOUT_HUB.includes(device.kind)) return [];
  const heats = device.kind === "heater";
  // A tank with no other warmth would only be cold in place of warm.
  const others = devicesIn(site, device.system, "heater").filter(({ ownThermostatC }) => ownThermostatC !== null);
  if (heats && (device.ownThermostatC !== null || others.length === 0)) return [];
  return [
    {
      kind: "without-hub-off",
      of: device.id,
      title: `The socket of ${device.id} falls off when its hub is dead`,
      parts: [device.id, device.by],
      edits: [set(["devices", device.id, "without-hub"], "off")],
      why: heats
        ? "It has no thermostat of its own, so that a dead hub must not leave it on; it will be cold instead, which is slower."
        : "What runs on without its hub does harm; what rests does so much later.",
      needs: `A setting of the socket of ${device.id}, seen to work by unplugging ${device.by}.`,
      meets: (finding) =>
        (finding.part === device.by || finding.mode === "surges") &&
        (heats
          ? finding.stressor === "heat"
          : finding.stressor !== null && finding.stressor !== "heat" && finding.stressor !== "cold"),
    },
  ];
}
