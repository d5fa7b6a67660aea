/** Remedies that let somebody know of devices: pumps, whatever draws power, lamps, cut-outs. */
import { formatMinuteOfDay, formatNumber } from "../../foundation/index.ts";
import type { Device, Site, SiteEdit } from "../../site/index.ts";
import { concerns } from "./finding.ts";
import { bodyOf, hubFor, keptAtC, sensorsIn, tells } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { canTell, wantsWord } from "./telling.ts";
import { ruleEdit, sensorEdit } from "./watch-edits.ts";
import { degC, freeName } from "./writing.ts";

const WEAK_SHARE = 0.6;
const IDLE_SHARE = 0.5;
const PUMP_FAULTS = [
  "stops",
  "spins-empty",
  "pause-left-on",
  "left-unplugged",
  "runs-slow",
  "slows",
  "socket-stays-off",
];

export function pumpWatch(site: Site, pump: Device): readonly Draft[] {
  if (pump.kind !== "return-pump" || pump.flowLPerH <= 0 || pump.spare !== null) return [];
  if (site.sensors.some(({ at, measures, id }) => at === pump.id && measures === "flow" && tells(site, id))) return [];
  const hub = hubFor(site, pump.system);
  const name = freeName(site, `${pump.id}-flow`);
  const flows = site.flows.filter(({ by }) => by === pump.id).map(({ id }) => id);
  return [
    {
      kind: "pump-watch",
      of: pump.id,
      title: `A flow sensor at ${pump.id} with a notice`,
      parts: [pump.id, ...flows],
      edits: [
        sensorEdit(name, hub, { measures: "flow", at: pump.id }),
        ruleEdit(freeName(site, `${pump.id}-weak`), hub, {
          when: { [name]: `below ${formatNumber(Math.round(pump.flowLPerH * WEAK_SHARE))} L/h`, for: "3 min" },
          notice: "urgent",
          says: `${pump.id} moves too little`,
        }),
      ],
      why: "A return that stands is seen in minutes, hours before oxygen or warmth tell of it; power alone looks normal when it spins empty.",
      needs: `A flow sensor in the pipe behind ${pump.id}, cleaned and tried every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsWord(finding) &&
        ((finding.part === pump.id && PUMP_FAULTS.includes(finding.mode)) ||
          (flows.includes(finding.part) && finding.mode === "valve-left-shut")),
    },
  ];
}

export function powerWatch(site: Site, device: Device): readonly Draft[] {
  if (!["wave-pump", "skimmer", "air-pump"].includes(device.kind) || device.spare !== null || device.powerW < 2)
    return [];
  if (device.schedule.length > 0 || device.normally === "off") return [];
  if (site.sensors.some(({ at, id }) => at === device.id && tells(site, id))) return [];
  const hub = hubFor(site, device.system);
  const name = freeName(site, `${device.id}-power`);
  return [
    {
      kind: "power-watch",
      of: device.id,
      title: `A notice when ${device.id} draws no power`,
      parts: [device.id],
      edits: [
        sensorEdit(name, hub, { measures: "power", at: device.id }),
        ruleEdit(freeName(site, `${device.id}-idle`), hub, {
          when: { [name]: `below ${formatNumber(Math.round(10 * device.powerW * IDLE_SHARE) / 10)} W`, for: "5 min" },
          notice: "urgent",
          says: `${device.id} stands`,
        }),
      ],
      why: "It is one of the sources of oxygen, and nothing else says that it stands.",
      needs: `A measuring socket for ${device.id}, tried by unplugging it every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsWord(finding) &&
        finding.part === device.id &&
        ["stops", "left-unplugged", "pause-left-on", "socket-stays-off"].includes(finding.mode),
    },
  ];
}

const DARK_SHARE = 0.15;
const BRIGHT_SHARE = 0.3;

export function lightWatch(site: Site, lamp: Device): readonly Draft[] {
  if (lamp.kind !== "light" || lamp.par <= 0 || lamp.schedule.length !== 1) return [];
  const [window] = lamp.schedule;
  if (window.toMin - window.fromMin < 300 || window.days.length < 7) return [];
  if (sensorsIn(site, lamp.system, "light").some(({ at, id }) => at === lamp.in && tells(site, id))) return [];
  const hub = hubFor(site, lamp.system);
  const name = freeName(site, `${lamp.in}-light`);
  const par = (share: number) => `${Math.max(1, Math.round(lamp.par * share))} PAR`;
  const clock = (minute: number) => formatMinuteOfDay((minute + 1440) % 1440);
  return [
    {
      kind: "light-watch",
      of: lamp.in,
      title: `A light sensor in ${lamp.in} that tells of dark days and bright nights`,
      parts: [lamp.in, lamp.id],
      edits: [
        sensorEdit(name, hub, { measures: "light", in: lamp.in }),
        ruleEdit(freeName(site, `${lamp.in}-dark-by-day`), hub, {
          when: { [name]: `below ${par(DARK_SHARE)}`, for: "1 h" },
          only: `${clock(window.fromMin + 90)}-${clock(window.toMin - 90)}`,
          notice: "urgent",
          says: `${lamp.in} is dark by day`,
        }),
        ruleEdit(freeName(site, `${lamp.in}-bright-by-night`), hub, {
          when: { [name]: `above ${par(BRIGHT_SHARE)}`, for: "1 h" },
          only: `${clock(window.toMin + 60)}-${clock(window.fromMin - 60)}`,
          notice: "soon",
          says: `${lamp.in} is bright by night`,
        }),
      ],
      why: "A lamp that stays dark takes corals days to lose colour over, which is time enough if somebody knows.",
      needs: `A light sensor in ${lamp.in}, wiped with the glass and shaded by hand as a trial every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsWord(finding) &&
        (finding.part === lamp.id || finding.stressor === "darkness") &&
        concerns(finding, lamp.system) &&
        [
          "stays-off",
          "stays-on",
          "left-unplugged",
          "full-power",
          "clock-wrong",
          "socket-stays-off",
          "socket-stays-on",
        ].includes(finding.mode),
    },
  ];
}

/** A limit lies so far below a cut-out, K at most, and leaves so much room above what is kept. */
const BELOW_CUT_OUT_K = 0.5;
const ROOM_K = 0.4;

/** A notice below a cut-out, where none is: what a cut-out saves, nobody hears of. */
export function cutOutNotice(site: Site, heater: Device, cutOutC: number, keptC: number): readonly SiteEdit[] {
  const sensors = sensorsIn(site, heater.system, "temperature");
  const sensor = sensors.find(({ hub }) => hub !== null);
  const limitC = cutOutC - Math.min(BELOW_CUT_OUT_K, (cutOutC - keptC) / 3);
  const told = site.rules.some(
    ({ notice, when }) =>
      notice !== null &&
      when.all.some(
        (term) =>
          term.is.op === "above" && term.is.value < cutOutC - 0.2 && sensors.some(({ id }) => id === term.sensor),
      ),
  );
  if (sensor === undefined || told || limitC - keptC < ROOM_K) return [];
  const hub = site.hubs.find(({ id }) => id === sensor.hub) ?? null;
  return [
    ruleEdit(freeName(site, `${heater.id}-near-cut-out`), hub, {
      when: { [sensor.id]: `above ${degC(limitC)}`, for: "10 min" },
      notice: "soon",
      says: `The water nears the cut-out of ${heater.id}`,
    }),
  ];
}

/** A heater that its cut-out has saved: the limit must lie below the cut-out, or nobody hears of it. */
export function noticeBelowCutOut(site: Site, heater: Device): readonly Draft[] {
  const body = bodyOf(site, heater.in);
  if (heater.kind !== "heater" || heater.cutOutC === null || body === null) return [];
  const edits = cutOutNotice(site, heater, heater.cutOutC, Math.max(keptAtC(body), heater.ownThermostatC ?? 0));
  if (edits.length === 0) return [];
  return [
    {
      kind: "notice-below-cut-out",
      of: heater.id,
      title: `A notice just below the cut-out of ${heater.id}`,
      parts: [heater.id],
      edits,
      why: "The cut-out saves the animals and tells nobody; the next fault meets no backup.",
      needs: "One rule, and a trial that its notice arrives.",
      meets: (finding) => finding.part === heater.id && finding.drill.verdict === "handled" && finding.untold,
    },
  ];
}
