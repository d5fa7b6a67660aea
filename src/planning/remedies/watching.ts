/** Remedies that let somebody know: sensors at the right place, limits, notices. */
import { formatMinuteOfDay, formatNumber } from "../../foundation/index.ts";
import type { Body, Device, Hub, RuleSpec, Sensor, Site, SiteEdit } from "../../site/index.ts";
import { concerns, type Finding } from "./finding.ts";
import {
  bodyOf,
  canSwitch,
  devicesIn,
  home,
  hubFor,
  keptAtC,
  onSocket,
  pumpedFlows,
  sensorsIn,
  tells,
} from "./places.ts";
import type { Draft } from "./remedy.ts";
import { canTell, isSeenFirst, wantsWord } from "./telling.ts";
import { degC, freeName, keys, litres, set } from "./writing.ts";

/** A notice above and below what is kept, K: far enough from a warm afternoon, early enough to come. */
const LIMIT_K = 1.5;
const DIFFERS_K = 1;
const KINDS = ["digital", "thermistor", "platinum"];
const PROBE_FAULTS = [
  "reads-low",
  "reads-high",
  "drifts-low",
  "drifts-high",
  "lead-broken",
  "lead-shorted",
  "shows-minus-127",
  "shows-85",
  "out-of-water",
];

export function watchingRemedies(site: Site): readonly Draft[] {
  return [
    ...site.systems.flatMap(({ id }) => [
      ...thermometer(site, id),
      ...phLimit(site, id),
      ...salinityLimit(site, id),
      ...oxygenLimit(site, id),
      ...displayHigh(site, id),
      ...sumpLow(site, id),
    ]),
    ...site.sensors.flatMap((sensor) => [...sensorGuard(site, sensor)]),
    ...site.rules.flatMap(({ id }) => [...ruleNotice(site, id), ...plausibleRange(site, id)]),
    ...site.devices.flatMap((device) => [
      ...pumpWatch(site, device),
      ...powerWatch(site, device),
      ...lightWatch(site, device),
      ...noticeBelowCutOut(site, device),
    ]),
  ];
}

/** A new sensor with what a sensor needs in order to be believed: it tells when it falls silent, and is tried. */
export function sensorEdit(name: string, hub: Hub | null, what: Readonly<Record<string, string | null>>): SiteEdit {
  return set(["sensors", name], keys({ ...what, hub: hub?.id ?? null, "silent-after": "10 min", tested: "1 month" }));
}

interface NewRule {
  readonly when: Readonly<Record<string, string>>;
  readonly until?: Readonly<Record<string, string>>;
  readonly acts?: readonly Device[];
  readonly only?: string;
  readonly atMost?: string;
  readonly notice: "urgent" | "soon";
  readonly says: string;
}

export function ruleEdit(name: string, hub: Hub | null, rule: NewRule): SiteEdit {
  const acts = rule.acts ?? [];
  return set(
    ["rules", name],
    keys({
      hub: hub?.id ?? null,
      when: rule.when,
      do: acts.length === 0 ? null : Object.fromEntries(acts.map(({ id }) => [id, "off"])),
      until: acts.length === 0 ? null : (rule.until ?? null),
      "at-most": acts.length === 0 ? null : (rule.atMost ?? null),
      only: rule.only ?? null,
      notice: rule.notice,
      says: rule.says,
      tested: "1 month",
    }),
  );
}

/** Where the next thermometer belongs: with the animals, then with the heater, which may cook a sump that stands still. */
function placeFor(site: Site, system: string, seen: readonly Sensor[]): Body | null {
  const living = home(site, system);
  const heated = bodyOf(site, devicesIn(site, system, "heater")[0]?.in ?? null);
  const has = (body: Body | null) => body !== null && seen.some(({ at }) => at === body.id);
  return !has(living) || heated === null || has(heated) ? living : heated;
}

function thermometer(site: Site, system: string): readonly Draft[] {
  const living = home(site, system);
  const seen = sensorsIn(site, system, "temperature");
  const telling = seen.filter(({ id }) => tells(site, id));
  if (living === null || telling.length >= 2) return [];
  if (telling.length === 1 && seen.length >= 2) return [];
  const body = placeFor(site, system, seen) ?? living;
  const hub = hubFor(site, system);
  const name = freeName(site, `${body.id}-thermometer`);
  const type = KINDS.find((kind) => seen.every((sensor) => sensor.type !== kind)) ?? KINDS[0];
  const keptC = keptAtC(living);
  const other = seen.find((sensor) => sensor.hub === (hub?.id ?? null));
  const acts = devicesIn(site, system, "heater").filter((heater) => hub !== null && heater.by === hub.id);
  const first = seen.length === 0;
  return [
    {
      kind: "second-thermometer",
      of: first ? `${system}-first` : system,
      title: first
        ? `A temperature sensor in ${body.id}, with limits and notices`
        : `A second temperature sensor of another kind in ${body.id}, with limits of its own`,
      parts: [body.id, ...seen.map(({ id }) => id)],
      edits: [
        sensorEdit(name, hub, { measures: "temperature", in: body.id, type, "flat-after": "12 h" }),
        ruleEdit(freeName(site, `${body.id}-warm-limit`), hub, {
          when: { [name]: `above ${degC(keptC + LIMIT_K)}`, for: "10 min" },
          acts,
          until: { [name]: `below ${degC(keptC + LIMIT_K / 2)}` },
          notice: "urgent",
          says: `${body.id} is too warm`,
        }),
        ruleEdit(freeName(site, `${body.id}-cold-limit`), hub, {
          when: { [name]: `below ${degC(keptC - LIMIT_K)}`, for: "20 min" },
          notice: "urgent",
          says: `${body.id} is too cold`,
        }),
        ...(other === undefined
          ? []
          : [
              ruleEdit(freeName(site, `${system}-thermometers-differ`), hub, {
                when: { [name]: `differs from ${other.id} by ${DIFFERS_K} K`, for: "20 min" },
                notice: "soon",
                says: `The thermometers ${other.id} and ${name} disagree`,
              }),
            ]),
      ],
      why: first
        ? "Nothing measures the water that the animals are in."
        : "One sensor cannot be doubted; two of different kinds in two places show each other's errors, and the standing pump between them.",
      needs: `A ${type} sensor in the flow of ${body.id}, compared with a thermometer that you trust, now and every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        ((wantsWord(finding) && isWarmth(finding) && concerns(finding, system)) ||
          (seen.some(({ id }) => id === finding.part) && PROBE_FAULTS.includes(finding.mode)) ||
          (finding.part === hub?.id && finding.mode === "probes-fall-silent")),
    },
  ];
}

function isWarmth({ stressor }: Finding): boolean {
  return stressor === "heat" || stressor === "cold";
}

/** Reading that has not moved for so long is stuck; where a still reading means nothing there is none. */
const FLAT_AFTER: Readonly<Record<string, string>> = {
  temperature: "12 h",
  ph: "24 h",
  salinity: "24 h",
  oxygen: "24 h",
  level: "2 days",
  flow: "2 h",
  power: "2 h",
  light: "20 h",
};

/** What makes a sensor tell that it is dead; nothing where something does so already. */
function guardEdits(site: Site, sensor: Sensor): readonly SiteEdit[] {
  const guarded = site.rules.some(({ when }) =>
    when.all.some((term) => term.sensor === sensor.id && (term.is.op === "silent" || term.is.op === "unchanged")),
  );
  const taken = site.rules.some(({ id }) => id === `${sensor.id}-silent` || id === `${sensor.id}-flat`);
  if (guarded || taken || sensor.hub === null) return [];
  const flat = FLAT_AFTER[sensor.measures];
  const silent = sensor.everyH > 0 ? `${Math.ceil(2.5 * sensor.everyH)} h` : "10 min";
  const at = (key: string, value: string) => set(["sensors", sensor.id, key], value);
  return [
    at("silent-after", silent),
    ...(flat === undefined ? [] : [at("flat-after", flat)]),
    ...(sensor.testedMonths === null || sensor.testedMonths > 3 ? [at("tested", "1 month")] : []),
  ];
}

function sensorGuard(site: Site, sensor: Sensor): readonly Draft[] {
  const edits = guardEdits(site, sensor);
  if (edits.length === 0) return [];
  const hub = site.hubs.find(({ id }) => id === sensor.hub) ?? null;
  const moves = FLAT_AFTER[sensor.measures] !== undefined;
  return [
    {
      kind: "sensor-guard",
      of: sensor.id,
      title: moves
        ? `A notice when ${sensor.id} falls silent or no longer moves`
        : `A notice when ${sensor.id} falls silent`,
      parts: [sensor.id],
      edits,
      why: "A sensor that shows nothing, or always the same, otherwise looks like one that is content.",
      needs: `Two settings at ${sensor.id}, tried by pulling its lead now and every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        ((finding.part === sensor.id && (finding.mode === "falls-silent" || (moves && finding.mode === "freezes"))) ||
          (finding.part === sensor.hub && finding.mode === "probes-fall-silent" && sensor.measures === "temperature")),
    },
  ];
}

/** "Saved, and nobody knows": a rule that switches off what goes wrong, without a word. */
function ruleNotice(site: Site, id: string): readonly Draft[] {
  const rule = site.rules.find((one) => one.id === id);
  if (rule === undefined || rule.notice !== null || rule.act.length === 0) return [];
  if (rule.act.some(({ state }) => state === "on")) return [];
  return [
    {
      kind: "rule-notice",
      of: id,
      title: `A notice when ${id} steps in`,
      parts: [id],
      edits: [set(["rules", id, "notice"], "soon")],
      why: "What was saved without a word meets the next fault without a backup.",
      needs: "One line of settings, and a trial that the notice arrives.",
      meets: (finding) =>
        finding.drill.verdict === "handled" &&
        (finding.sentence.includes(id) ||
          finding.sentence.includes(rule.says) ||
          rule.act.some(({ device }) => device === finding.part)),
    },
  ];
}

/** A lead that breaks reads far below any water; a rule that heats on it cooks. */
function plausibleRange(site: Site, id: string): readonly Draft[] {
  const rule = site.rules.find((one) => one.id === id);
  if (rule === undefined || !rule.act.some(({ state }) => state === "on")) return [];
  const term = rule.when.all.find(
    ({ sensor, is }) =>
      is.op === "below" &&
      is.value > LEAST_C + 1 &&
      site.sensors.some((one) => one.id === sensor && one.measures === "temperature"),
  );
  if (term === undefined || term.is.op !== "below" || !isWarmedOtherwise(site, rule)) return [];
  return [
    {
      kind: "plausible-range",
      of: id,
      title: `${id} acts only on readings that water can have`,
      parts: [id, term.sensor],
      edits: [
        set(["rules", id, "when", term.sensor], `between ${degC(LEAST_C)} and ${formatNumber(term.is.value)} degC`),
      ],
      why: "A broken lead reads far below any water, and the rule would heat without end.",
      needs:
        "One value of the rule; a very cold tank must then be warmed by hand, or by a heater with a thermostat of its own.",
      meets: (finding) => finding.part === term.sensor && ["lead-broken", "shows-minus-127"].includes(finding.mode),
    },
  ];
}

/** Whether something else still warms: a rule that no longer heats on a false reading would else leave it cold. */
function isWarmedOtherwise(site: Site, rule: RuleSpec): boolean {
  const heaters = site.devices.filter(({ kind }) => kind === "heater");
  const led = heaters.filter(({ id }) => rule.act.some(({ device }) => device === id));
  return led.every(({ system }) =>
    heaters.some((one) => one.system === system && one.ownThermostatC !== null && !led.includes(one)),
  );
}

const LEAST_C = 15;
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

function pumpWatch(site: Site, pump: Device): readonly Draft[] {
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

function powerWatch(site: Site, device: Device): readonly Draft[] {
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

function lightWatch(site: Site, lamp: Device): readonly Draft[] {
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
function noticeBelowCutOut(site: Site, heater: Device): readonly Draft[] {
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

/** What brings alkalinity: it is stopped when the pH is too high. */
function alkalineFeeds(site: Site, system: string): readonly Device[] {
  return site.devices.filter((device) => {
    const source = bodyOf(site, device.from)?.holds;
    if (device.system !== system || source === undefined) return false;
    return source.kind === "limewater" || (source.kind === "solution" && source.of === "alkalinity");
  });
}

const HIGH_PH = 8.6;
const HIGH_PH_ENDS = 8.5;
const LOW_PH = 7.6;

function phLimit(site: Site, system: string): readonly Draft[] {
  const feeds = alkalineFeeds(site, system);
  const living = home(site, system);
  const probe = sensorsIn(site, system, "ph").find(({ hub }) => hub !== null);
  if (living === null || (probe !== undefined && tells(site, probe.id))) return [];
  const hub = probe === undefined ? hubFor(site, system) : (site.hubs.find(({ id }) => id === probe.hub) ?? null);
  const acts = feeds.filter((device) => canSwitch(device, hub));
  const name = probe?.id ?? freeName(site, `${system}-ph-probe`);
  const at = probe?.at ?? living.id;
  return [
    {
      kind: probe === undefined ? "ph-watch" : "ph-notice",
      of: system,
      title:
        acts.length === 0
          ? `${probe === undefined ? "A pH probe" : "Limits on the pH probe"} for ${system}, with notices`
          : `A pH limit for ${system} that stops ${acts.map(({ id }) => id).join(" and ")} and tells someone`,
      parts: [living.id, ...(probe ? [probe.id] : []), ...acts.map(({ id }) => id)],
      edits: [
        ...(probe === undefined
          ? [sensorEdit(name, hub, { measures: "ph", in: at, "flat-after": "24 h" })]
          : guardEdits(site, probe)),
        ...acts.flatMap((device) => onSocket(site, device, hub)),
        ruleEdit(freeName(site, `${system}-ph-high`), hub, {
          when: { [name]: `above ${HIGH_PH} pH`, for: "10 min" },
          acts,
          until: { [name]: `below ${HIGH_PH_ENDS} pH` },
          notice: "urgent",
          says: `The pH of ${system} is too high`,
        }),
        ruleEdit(freeName(site, `${system}-ph-low`), hub, {
          when: { [name]: `below ${LOW_PH} pH`, for: "1 h" },
          notice: "soon",
          says: `The pH of ${system} is low`,
        }),
      ],
      why: "Too much alkalinity shows in the pH first, within minutes, and so does air that is used up.",
      needs: `${probe === undefined ? "A pH probe in the flow, set with fresh fluid every month or two" : "Rules on the probe that is there"}${acts.length === 0 ? "" : "; a switched socket that falls off without the hub for what doses"}, tried every three months.`,
      caution: acts.length === 0 ? undefined : "Wear goggles and gloves with limewater and strong solutions.",
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsPh(
          finding,
          living.id === at || !site.flows.some(({ id, by }) => id === finding.part || by === finding.part),
        ) &&
        concerns(finding, system),
    },
  ];
}

/** Alkaline water harms within minutes, which the rule must meet by itself; air that is used up takes hours. A probe elsewhere than the animals sees it only while water goes round. */
function wantsPh(finding: Finding, sees: boolean): boolean {
  const { stressor, untold, drill } = finding;
  if (stressor === "high-ph") return untold || drill.verdict === "late";
  return stressor === "low-ph" && sees && wantsWord(finding) && !isSeenFirst(finding);
}

function salinityLimit(site: Site, system: string): readonly Draft[] {
  const living = home(site, system);
  if (living === null || living.holds.kind !== "salt") return [];
  if (sensorsIn(site, system, "salinity").some(({ id }) => tells(site, id))) return [];
  const hub = hubFor(site, system);
  const acts = devicesIn(site, system, "top-off", "refill-valve").filter(
    (device) => canSwitch(device, hub) && bodyOf(site, device.in)?.holds.kind === "salt",
  );
  const name = freeName(site, `${system}-salinity-probe`);
  const at = pumpedFlows(site, system)[0]?.from ?? living.id;
  const ppt = (offset: number) => `${formatNumber(Math.round(10 * (salinityOf(living) + offset)) / 10)} ppt`;
  return [
    {
      kind: "salinity-watch",
      of: system,
      title: `A salinity probe in ${at} with a notice${acts.length === 0 ? "" : ` that also stops ${acts.map(({ id }) => id).join(" and ")}`}`,
      parts: [at, ...acts.map(({ id }) => id)],
      edits: [
        sensorEdit(name, hub, { measures: "salinity", in: at, "flat-after": "24 h" }),
        ...acts.flatMap((device) => onSocket(site, device, hub)),
        ruleEdit(freeName(site, `${system}-salinity-low`), hub, {
          when: { [name]: `below ${ppt(-1)}`, for: "10 min" },
          acts,
          until: { [name]: `above ${ppt(-0.6)}` },
          notice: "urgent",
          says: `The salinity of ${system} falls`,
        }),
        ruleEdit(freeName(site, `${system}-salinity-high`), hub, {
          when: { [name]: `above ${ppt(1.2)}`, for: "30 min" },
          notice: "soon",
          says: `The salinity of ${system} rises`,
        }),
      ],
      why: "Fresh water that runs in, and salt water that runs out unseen, both show in the salinity long before animals suffer.",
      needs: `A conductivity probe in the flow of ${at}, compared with another instrument every month.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        !isSeenFirst(finding) &&
        concerns(finding, system) &&
        (finding.stressor === "low-salinity" || finding.stressor === "high-salinity" || finding.mode === "weeps") &&
        wantsWord(finding),
    },
  ];
}

function salinityOf(body: Body): number {
  return body.holds.kind === "salt" ? body.holds.salinity : 35;
}

const LOW_OXYGEN_MG_L = 4.5;

function oxygenLimit(site: Site, system: string): readonly Draft[] {
  const living = home(site, system);
  if (living === null || sensorsIn(site, system, "oxygen").some(({ id }) => tells(site, id))) return [];
  const hub = hubFor(site, system);
  const name = freeName(site, `${living.id}-oxygen`);
  return [
    {
      kind: "oxygen-watch",
      of: system,
      title: `An oxygen probe in ${living.id} with a notice`,
      parts: [living.id],
      edits: [
        sensorEdit(name, hub, { measures: "oxygen", in: living.id, "flat-after": "24 h" }),
        ruleEdit(freeName(site, `${living.id}-oxygen-low`), hub, {
          when: { [name]: `below ${LOW_OXYGEN_MG_L} mg/L`, for: "10 min" },
          notice: "urgent",
          says: `${living.id} lacks oxygen`,
        }),
      ],
      why: "Overfeeding and standing pumps end in water without oxygen, and animals bear that for hours only.",
      needs: `An optical probe in ${living.id}, its cap renewed when it is due, compared in air every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsWord(finding) &&
        !isSeenFirst(finding) &&
        concerns(finding, system) &&
        finding.stressor === "hypoxia",
    },
  ];
}

/** A third of the way to the rim: above waves, and what still runs in until the pump has stopped finds room. */
const RIM_SHARE = 0.3;

function displayHigh(site: Site, system: string): readonly Draft[] {
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

function sumpLow(site: Site, system: string): readonly Draft[] {
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
