/** Plugs in words, and which devices must not act on the water while a rule is tried. */
import { bodyById, type Comparison, type Device, type Flow, type RuleSpec, type Site } from "../../../site/index.ts";

/** "heater-1 (on strip-3)". */
export function plugWords(device: Device): string {
  return device.on === null ? device.id : `${device.id} (on ${device.on})`;
}

/** Room that a sump should have for what runs back, as a share of it. */
const ROOM_SHARE = 1.1;

/** What changes the water when it is switched on without need. */
const CHANGES_WATER = [
  "heater",
  "chiller",
  "top-off",
  "refill-valve",
  "doser",
  "feeder",
  "calcium-reactor",
  "water-change",
];

/** Which way the trial of a term moves the reading; null where the reading is lost or held still. */
function moveOf({ op }: Comparison): "up" | "down" | null {
  if (op === "silent" || op === "unchanged") return null;
  return op === "below" || op === "falling" || op === "dry" || op === "absent" ? "down" : "up";
}

/** Whether a reading that moves so may fulfil what another rule asks of it. */
function mayFulfil(is: Comparison, move: "up" | "down"): boolean {
  return is.op === "differs" || is.op === "between" || is.op === "outside" || moveOf(is) === move;
}

/**
 * Devices that rules may switch on, or leave on, while a sensor is made to say what is not so. Each is unplugged meanwhile and a
 * lamp stands in its socket: then the socket is seen to switch, and nothing heats, doses or fills.
 */
export function heldBack(site: Site, rule: RuleSpec): readonly Device[] {
  const moved = new Map(rule.when.all.map(({ sensor, is }) => [sensor, moveOf(is)]));
  const mayAct = site.rules.filter(
    (other) =>
      other.id === rule.id ||
      other.when.all.some(({ sensor, is }) => {
        const move = moved.get(sensor);
        return move !== undefined && (move === null || mayFulfil(is, move));
      }),
  );
  const ids = new Set(
    mayAct.flatMap(({ act }) => act.filter(({ state }) => state === "on").map(({ device }) => device)),
  );
  return site.devices.filter(({ id, kind }) => ids.has(id) && CHANGES_WATER.includes(kind));
}

/**
 * What to do first where a pump will stand still and its sump has no room for what then runs back. Empty where there is room.
 *
 * @param devices Ids of what will stand still.
 */
export function roomSteps(site: Site, devices: readonly string[]): readonly string[] {
  return site.flows.flatMap((flow) => {
    if (flow.by === null || !devices.includes(flow.by)) return [];
    const sump = bodyById(site, flow.from);
    const comesL = runsBackL(flow);
    const lacksL = Math.ceil(comesL * ROOM_SHARE - (sump.brimL - sump.volumeL));
    if (lacksL <= 0) return [];
    return [`Take ${lacksL} L of water out of ${sump.id} first and keep them: it has no room for what runs back.`];
  });
}

/** Water that comes back to the sump when a pump stops and all that stands behind it works, L. */
export function runsBackL(flow: Flow): number {
  return (flow.checkValve ? 0 : flow.backSiphonL) + flow.weirHeadL;
}
