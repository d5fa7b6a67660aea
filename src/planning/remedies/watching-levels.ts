/** Remedies that let somebody know of levels: a display that rises, a sump that falls. */
import type { Site } from "../../site/index.ts";
import { concerns } from "./finding.ts";
import { bodyOf, canSwitch, devicesIn, hubFor, onSocket, pumpedFlows, sensorsIn, tells } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { canTell, isSeenFirst } from "./telling.ts";
import { ruleEdit, sensorEdit } from "./watch-edits.ts";
import { freeName, litres } from "./writing.ts";

/** A third of the way to the rim: above waves, and what still runs in until the pump has stopped finds room. */
const RIM_SHARE = 0.3;

export function displayHigh(site: Site, system: string): readonly Draft[] {
  return pumpedFlows(site, system).flatMap((flow): Draft[] => {
    const body = bodyOf(site, flow.to);
    const pump = site.devices.find(({ id }) => id === flow.by);
    const hub = hubFor(site, system);
    if (body === null || pump === undefined || hub === null || !canSwitch(pump, hub)) return [];
    const isThere = site.rules.some(
      ({ act, when }) =>
        act.some(({ device, state }) => device === pump.id && state === "off") &&
        when.all.some(({ sensor }) =>
          site.sensors.some((one) => one.id === sensor && one.at === body.id && one.measures === "float"),
        ),
    );
    if (isThere || body.brimL - body.volumeL < 2) return [];
    const name = freeName(site, `${body.id}-high`);
    return [
      {
        kind: "display-high",
        of: flow.id,
        title: `A high-level switch in ${body.id} that stops ${pump.id}`,
        parts: [body.id, pump.id, flow.id],
        edits: [
          sensorEdit(name, hub, {
            measures: "float",
            in: body.id,
            "float-at": litres(body.volumeL + RIM_SHARE * (body.brimL - body.volumeL)),
          }),
          ...onSocket(site, pump, hub),
          ruleEdit(freeName(site, `${body.id}-full`), hub, {
            when: { [name]: "wet" },
            acts: [pump],
            // It holds on when the float is dry again, or the pump would start into the blocked drain every minute.
            until: { [name]: "dry", for: "12 h" },
            notice: "urgent",
            says: `The drain of ${body.id} is blocked`,
          }),
        ],
        why: "A blocked drain empties the sump over the rim within minutes, faster than anybody comes.",
        needs: `A float at the rim of ${body.id} and a switched socket for ${pump.id} that stays on without the hub, the float lifted as a trial every three months.`,
        caution: "Let cords hang lower than their sockets, and keep sockets above the highest water.",
        meets: (finding) =>
          finding.part === flow.id &&
          ["drain-blocked", "drain-narrowed"].includes(finding.mode) &&
          canTell(site, finding, hub),
      },
    ];
  });
}

const LOW_SHARE = 0.35;
/** A sump takes so long to run low that harm within this time comes first, min. */
const LOW_SUMP_MIN = 180;
const LOW_SUMP_FAULTS = [
  "does-not-fill",
  "stops",
  "air-lock",
  "left-unplugged",
  "slows",
  "bulkhead-fails",
  "seam-opens",
];

export function sumpLow(site: Site, system: string): readonly Draft[] {
  const from = pumpedFlows(site, system)[0]?.from ?? null;
  const sump = bodyOf(site, from);
  if (sump === null || sump.role === "display") return [];
  const floats = sensorsIn(site, system, "float").concat(sensorsIn(site, system, "level"));
  if (
    floats.some(
      ({ at, id }) =>
        at === sump.id &&
        tells(site, id) &&
        site.rules.some(({ when }) =>
          when.all.some(({ sensor, is }) => sensor === id && (is.op === "dry" || is.op === "below")),
        ),
    )
  )
    return [];
  const hub = hubFor(site, system);
  const name = freeName(site, `${sump.id}-low`);
  const fills = devicesIn(site, system, "top-off", "refill-valve").map(({ id }) => id);
  return [
    {
      kind: "sump-low",
      of: sump.id,
      title: `A low-level switch in ${sump.id} with a notice`,
      parts: [sump.id, ...fills],
      edits: [
        sensorEdit(name, hub, {
          measures: "float",
          in: sump.id,
          type: "optical",
          "float-at": litres(sump.volumeL - LOW_SHARE * (sump.volumeL - sump.intakeL)),
        }),
        ruleEdit(freeName(site, `${sump.id}-runs-low`), hub, {
          when: { [name]: "dry", for: "5 min" },
          notice: "urgent",
          says: `${sump.id} runs low`,
        }),
      ],
      why: "All water that is lost, and all that is not topped off, is first missing in the sump.",
      needs: `A float in ${sump.id}, lowered as a trial every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        finding.untold &&
        !isSeenFirst(finding) &&
        (finding.drill.minutes.harm_early ?? 0) > LOW_SUMP_MIN &&
        concerns(finding, system) &&
        LOW_SUMP_FAULTS.includes(finding.mode) &&
        (fills.includes(finding.part) || site.bodies.some(({ id }) => id === finding.part)),
    },
  ];
}
