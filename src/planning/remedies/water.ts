/** Remedies about what runs in, what is dosed, and where water goes when something is blocked. */
import { formatNumber } from "../../foundation/index.ts";
import type { Body, Device, Flow, Site, SiteEdit } from "../../site/index.ts";
import { concerns, type Finding } from "./finding.ts";
import { evaporatedLPerD, harmlessL } from "./litres.ts";
import { bodyOf, bodyPath, flowPath, pumpedFlows, systemL } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { freeName, keys, litres, set, tidy, wholeMinutes } from "./writing.ts";

const LIFTING = "A 20 L can weighs over 20 kg: use a pump or a cart.";
const CHLORIDE = "Dissolve calcium chloride slowly: the solution heats up and can burn; wear goggles and gloves.";
const DRIP = "Switch off and unplug every device in the water before your hand goes in.";

export function waterRemedies(site: Site): readonly Draft[] {
  return [
    ...site.devices.flatMap((device) => [
      ...ofTopOff(site, device),
      ...ofDoser(site, device),
      ...feederOnCells(device),
    ]),
    ...site.rules.flatMap(({ id }) => atMost(site, id)),
    ...site.flows.flatMap((flow) => ofFlow(site, flow)),
    ...floorDrain(site),
    ...site.devices.flatMap((device) => pumpService(site, device)),
  ];
}

const RUNS_ON = ["will-not-stop", "timer-stays-on", "socket-stays-on", "plugged-past-hub"];

function runsOn(finding: Finding, device: string): boolean {
  return finding.part === device && RUNS_ON.includes(finding.mode);
}

function ofTopOff(site: Site, device: Device): readonly Draft[] {
  const body = bodyOf(site, device.in);
  if ((device.kind !== "top-off" && device.kind !== "refill-valve") || body === null || body.holds.kind !== "salt")
    return [];
  return [
    ...secondFloat(device, body),
    ...longestRun(device),
    ...outletRaised(device),
    ...smallerReservoir(site, device),
    ...dayVessel(site, device),
    ...limeApart(site, device),
  ];
}

/** The second float lies this much above the first, as a share of the volume, and at most so far towards the rim. */
const ABOVE_SHARE = 0.04;
const RIM_SHARE = 0.4;

function tried(device: Device): readonly SiteEdit[] {
  return (device.testedMonths ?? null) === null ? [set(["devices", device.id, "tested"], "1 month")] : [];
}

function floatWritten({ id, ownFloat }: Device): readonly SiteEdit[] {
  if (ownFloat === null) return [];
  return [
    set(["devices", id, "own-float", "fills-below"], `${formatNumber(ownFloat.onL)} L`),
    set(["devices", id, "own-float", "stops-at"], `${formatNumber(ownFloat.offL)} L`),
  ];
}

/** A float that the file may have left out has to be written before it can have a second one. */
function besideFloat(device: Device, body: Body | null): readonly SiteEdit[] {
  return body !== null && device.ownFloat?.offL === body.volumeL ? floatWritten(device) : [];
}

function secondFloat(device: Device, body: Body): readonly Draft[] {
  const float = device.ownFloat;
  if (float === null || float.spareL !== null) return [];
  const above = Math.min(ABOVE_SHARE * float.offL, RIM_SHARE * (body.brimL - float.offL));
  if (above < 0.1) return [];
  return [
    {
      kind: "spare-stops-at",
      of: device.id,
      title: `A second, higher float that stops ${device.id}`,
      parts: [device.id, body.id],
      edits: [
        ...besideFloat(device, body),
        set(["devices", device.id, "own-float", "spare-stops-at"], litres(float.offL + above)),
        ...tried(device),
      ],
      why: "A float that hangs low lets the whole reservoir in; the second one stops it a finger's width higher.",
      needs: `A second float of another kind in ${body.id}, in series with the first, lifted as a trial now and every three months.`,
      caution: DRIP,
      meets: (finding) => runsOn(finding, device.id),
    },
  ];
}

/** A run may last this many times as long as a usual one. */
const RUN_TIMES = 4;

function longestRun(device: Device): readonly Draft[] {
  const float = device.ownFloat;
  if (float === null || float.longestRunS !== null || device.flowLPerH <= 0) return [];
  const usualS = ((float.offL - float.onL) / device.flowLPerH) * 3600;
  return [
    {
      kind: "longest-run",
      of: device.id,
      title: `A longest run of ${wholeMinutes(RUN_TIMES * usualS)} for ${device.id}`,
      parts: [device.id],
      edits: [
        ...floatWritten(device),
        set(["devices", device.id, "own-float", "longest-run"], wholeMinutes(RUN_TIMES * usualS)),
        ...tried(device),
      ],
      why: `A usual run lasts ${Math.max(1, Math.round(usualS))} s; one four times as long is a fault, and is ended by the clock.`,
      needs: `A setting or a timer at ${device.id}, seen to stop it now and every three months; after long pauses it has to be started again by hand.`,
      meets: (finding) => runsOn(finding, device.id),
    },
  ];
}

function outletRaised(device: Device): readonly Draft[] {
  if (!device.canSiphon) return [];
  return [
    {
      kind: "outlet-raised",
      of: device.id,
      title: `The outlet of ${device.id} in the air, above the highest level`,
      parts: [device.id],
      edits: [set(["devices", device.id, "can-siphon"], "no")],
      why: "An outlet under water goes on drawing after the pump has stopped, until the reservoir is empty.",
      needs:
        "The hose fixed so that it ends above the highest water, or a hole in it there; then a look that it stops dripping.",
      meets: (finding) => finding.part === device.id && finding.mode === "siphons",
    },
  ];
}

/** Freshwater stores are topped up by hand in so many minutes. */
const REFILL_MIN = 10;
const MONTH_D = 30.4;
/** A store is worth replacing where it holds this many times the harmless volume. */
const MUCH_MORE = 1.2;

function freshStore(site: Site, device: Device): Body | null {
  const store = bodyOf(site, device.from);
  return store?.holds.kind === "fresh" ? store : null;
}

function smallerReservoir(site: Site, device: Device): readonly Draft[] {
  const store = freshStore(site, device);
  if (store === null) return [];
  const drawers = site.devices.filter(({ from }) => from === store.id);
  const dailyL = drawers.reduce((sum, one) => sum + evaporatedLPerD(site, one.system), 0);
  const smallL = tidy(Math.min(...drawers.map((one) => harmlessL(site, one))));
  if (smallL < Math.max(0.5, dailyL) || store.volumeL < smallL * MUCH_MORE) return [];
  const refills = MONTH_D * dailyL * (1 / smallL - 1 / store.volumeL) * REFILL_MIN;
  return [
    {
      kind: "smaller-reservoir",
      of: store.id,
      title: `A reservoir of ${litres(smallL)} in place of ${store.id}, which holds ${litres(store.volumeL)}`,
      parts: [store.id, ...drawers.map(({ id }) => id)],
      edits: [
        set([...bodyPath(store), "volume"], litres(smallL)),
        set([...bodyPath(store), "brim"], litres(smallL * 1.05)),
        set([...bodyPath(store), "intake"], litres(smallL * 0.05)),
      ],
      why: `All of ${litres(smallL)} may run in and neither the salinity nor the rim of ${device.in} is passed; it lasts about ${formatNumber(Math.floor((10 * smallL) / dailyL) / 10)} days.`,
      needs: `A can of ${litres(smallL)}, filled that often: an absence that is longer needs somebody who fills it.`,
      caution: LIFTING,
      moreMinutesPerMonth: Math.round(refills),
      meets: (finding) =>
        drawers.some(({ id }) => finding.part === id && [...RUNS_ON, "siphons"].includes(finding.mode)) ||
        (finding.part === store.id && finding.mode === "splits" && smallL < 20),
    },
  ];
}

/** A day vessel holds so many days' water. */
const VESSEL_DAYS = 1.5;
const FILLED_IN_MIN = 10;

function dayVessel(site: Site, device: Device): readonly Draft[] {
  const store = freshStore(site, device);
  if (store === null || device.kind !== "top-off") return [];
  const mostL = harmlessL(site, device);
  const dailyL = evaporatedLPerD(site, device.system);
  const vesselL = tidy(Math.min(mostL, Math.max(1, VESSEL_DAYS * dailyL)));
  if (vesselL < 1.1 * dailyL || vesselL < 0.5 || store.volumeL < mostL * MUCH_MORE) return [];
  const body = bodyOf(site, device.in);
  const vessel = freeName(site, `${body?.system ?? device.system}-day-vessel`);
  const fill = freeName(site, `${body?.system ?? device.system}-day-fill`);
  return [
    {
      kind: "day-vessel",
      of: device.id,
      title: `A day vessel of ${litres(vesselL)} between ${store.id} and ${device.in}`,
      parts: [device.id, store.id],
      edits: [
        set(["systems", device.system, "bodies", vessel], { volume: litres(vesselL), holds: "fresh" }),
        set(["devices", device.id, "from"], vessel),
        set(
          ["devices", fill],
          keys({
            kind: "top-off",
            power: "8 W",
            flow: `${formatNumber(tidy((vesselL * 60) / FILLED_IN_MIN))} L/h`,
            in: vessel,
            from: store.id,
            on: device.on ?? "none",
            "own-float": {
              "fills-below": litres(0.96 * vesselL),
              "stops-at": litres(vesselL),
              "spare-stops-at": litres(1.03 * vesselL),
              "longest-run": wholeMinutes(FILLED_IN_MIN * 60 + 120),
            },
            schedule: "12:00-12:15",
            "can-siphon": "no",
            tested: "1 month",
          }),
        ),
      ],
      why: `${store.id} lasts as long as before, but only a day's water can run in by mistake.`,
      needs: `A vessel of ${litres(vesselL)} from which ${device.id} draws, filled once a day from ${store.id} by a pump on a timer, with two floats of its own; both tried every three months.`,
      caution: DRIP,
      meets: (finding) => finding.part === device.id && [...RUNS_ON, "siphons"].includes(finding.mode),
    },
  ];
}

const DKH_PER_MEQ_L = 2.804;
const CAN_DAYS = 14;
/** Water on the floor counts as harm from here on (docs/decisions/0006). */
const WET_FLOOR_L = 20;
/** An hour stuck on may bring so much: the trade's measure for a dosing head. */
const STUCK_DKH_PER_H = 0.5;
const STUCK_MMOL_PER_H = 0.5;
const DUMP_DKH = 2;

/** Flow of a head of which an hour too long does little, L/h, for a solution of so many meq in a mL. */
function slowLPerH(volumeL: number, per: number, strengthPerML: number): number {
  return (per * volumeL) / strengthPerML / 1000;
}

function limeApart(site: Site, device: Device): readonly Draft[] {
  const lime = bodyOf(site, device.from);
  const body = bodyOf(site, device.in);
  if (lime === null || body === null || lime.holds.kind !== "limewater") return [];
  const volumeL = systemL(site, body.system);
  const demand = site.bodies
    .filter(({ system }) => system === body.system)
    .reduce((sum, { livestock }) => sum + livestock.alkalinityDemandDKHPerDay, 0);
  const meqPerD = (demand / DKH_PER_MEQ_L) * volumeL;
  if (meqPerD < 1 || site.devices.some(({ from, id }) => from === lime.id && id !== device.id)) return [];
  const part = (what: "alkalinity" | "calcium", mLPerD: number, slow: number) => {
    const can = freeName(site, `${body.system}-${what}-can`);
    return [
      set(["systems", body.system, "bodies", can], {
        volume: litres(Math.max(0.5, tidy((CAN_DAYS * mLPerD) / 1000 + 0.05))),
        holds: { solution: what, strength: what === "alkalinity" ? "1.0 meq/mL" : "1.0 mmol/mL" },
      }),
      set(
        ["devices", freeName(site, `${body.system}-${what}-doser`)],
        keys({
          kind: "doser",
          flow: `${formatNumber(tidy(1000 * Math.max(slow, (2 * mLPerD) / 24_000)))} mL/h`,
          in: body.id,
          from: can,
          on: device.on ?? "none",
          amount: `${Math.round(mLPerD)} mL/d`,
          doses: what === "alkalinity" ? "24 a day" : "12 a day",
        }),
      ),
    ];
  };
  return [
    {
      kind: "lime-apart",
      of: device.id,
      title: `Fresh water tops off ${body.id}, and two slow dosing heads give what the lime gave`,
      parts: [device.id, lime.id],
      edits: [
        set([...bodyPath(lime), "holds"], "fresh"),
        ...part("alkalinity", meqPerD, slowLPerH(volumeL, STUCK_DKH_PER_H / DKH_PER_MEQ_L, 1)),
        ...part("calcium", meqPerD / 2, slowLPerH(volumeL, STUCK_MMOL_PER_H, 1)),
      ],
      why: "With lime in the top-off every leak, stuck float and blocked drain ends in caustic water.",
      needs: `Two dosing heads and cans for ${Math.round(meqPerD)} mL of alkalinity and ${Math.round(meqPerD / 2)} mL of calcium solution a day; ${lime.id} rinsed and filled with fresh water.`,
      caution: CHLORIDE,
      // Where so much runs that the floor is wet, or the salt is thinned, other harm takes its place.
      meets: (finding) =>
        finding.stressor === "high-ph" &&
        finding.drill.floor_l < WET_FLOOR_L &&
        ![...RUNS_ON, "siphons"].includes(finding.mode) &&
        concerns(finding, body.system),
    },
  ];
}

function ofDoser(site: Site, device: Device): readonly Draft[] {
  const can = bodyOf(site, device.from);
  const body = bodyOf(site, device.in);
  if (device.kind !== "doser" || can === null || body === null || can.holds.kind !== "solution") return [];
  if (device.amountPerDay <= 0 || (can.holds.of !== "alkalinity" && can.holds.of !== "calcium")) return [];
  const volumeL = systemL(site, body.system);
  const { strengthPerML } = can.holds;
  const per = can.holds.of === "alkalinity" ? STUCK_DKH_PER_H / DKH_PER_MEQ_L : STUCK_MMOL_PER_H;
  const slow = tidy(1000 * Math.max(slowLPerH(volumeL, per, strengthPerML), (2 * device.amountPerDay) / 24_000)) / 1000;
  const weekL = (7 * device.amountPerDay) / 1000;
  const dumpL = ((DUMP_DKH / DKH_PER_MEQ_L) * volumeL) / strengthPerML / 1000;
  const smallL = tidy(Math.max(weekL, Math.min(dumpL, 2 * weekL)) + 0.05);
  const drafts: Draft[] = [];
  if (device.flowLPerH > 1.3 * slow)
    drafts.push({
      kind: "slower-head",
      of: device.id,
      title: `A head of ${formatNumber(1000 * slow)} mL/h for ${device.id}`,
      parts: [device.id],
      edits: [set(["devices", device.id, "flow"], `${formatNumber(1000 * slow)} mL/h`)],
      why: "An hour stuck on then gives about half a degree of hardness, and not a day's dose in minutes.",
      needs: "Another head or a slower setting, measured with a cylinder.",
      meets: (finding) => finding.part === device.id && [...RUNS_ON, "dose-repeated"].includes(finding.mode),
    });
  if (can.volumeL > smallL * MUCH_MORE && site.devices.filter(({ from }) => from === can.id).length === 1)
    drafts.push({
      kind: "smaller-can",
      of: can.id,
      title: `A container of ${litres(smallL)} in place of ${can.id}, which holds ${litres(can.volumeL)}`,
      parts: [can.id, device.id],
      edits: [
        set([...bodyPath(can), "volume"], litres(smallL)),
        set([...bodyPath(can), "brim"], litres(smallL * 1.05)),
        set([...bodyPath(can), "intake"], litres(smallL * 0.05)),
      ],
      why: `What is not in the container cannot run in; it lasts ${Math.floor((1000 * smallL) / device.amountPerDay)} days.`,
      needs: "A smaller container, filled that often.",
      meets: (finding) =>
        (finding.part === device.id || finding.part === can.id) &&
        [...RUNS_ON, "siphons", "mixed-double", "shared-batch-wrong"].includes(finding.mode),
    });
  if (device.dosesPerDay < 24)
    drafts.push({
      kind: "smaller-portions",
      of: device.id,
      title: `Twenty-four small doses a day by ${device.id}`,
      parts: [device.id],
      edits: [set(["devices", device.id, "doses"], "24 a day")],
      why: "The same amount in more portions moves the pH less each time.",
      needs: `A setting of ${device.id}, at other minutes than other dosers.`,
      meets: (finding) => finding.part === device.id && finding.stressor === "high-ph",
    });
  return drafts;
}

/** A rule that fills or doses must end by the clock too. */
function atMost(site: Site, id: string): readonly Draft[] {
  const rule = site.rules.find((one) => one.id === id);
  if (rule === undefined || rule.atMostS !== null) return [];
  const pours = rule.act.filter(
    ({ device, state }) =>
      state === "on" &&
      site.devices.some((one) => one.id === device && ["top-off", "refill-valve", "doser"].includes(one.kind)),
  );
  if (pours.length === 0) return [];
  return [
    {
      kind: "at-most",
      of: id,
      title: `A time limit of 10 min for ${id}`,
      parts: [id, ...pours.map(({ device }) => device)],
      edits: [set(["rules", id, "at-most"], "10 min"), set(["rules", id, "not-oftener"], "1 h")],
      why: "A sensor that hangs would let the rule pour on without end.",
      needs: "Two values of the rule; see that a usual run is shorter.",
      meets: (finding) =>
        finding.stressor !== null &&
        site.sensors.some(
          (sensor) => sensor.id === finding.part && rule.when.all.some((term) => term.sensor === sensor.id),
        ),
    },
  ];
}

function ofFlow(site: Site, flow: Flow): readonly Draft[] {
  const pump = site.devices.find(({ id }) => id === flow.by);
  const from = bodyOf(site, flow.from);
  if (pump === undefined || from === null) return [];
  const drafts: Draft[] = [];
  if (flow.spareDrainLPerH < pump.flowLPerH)
    drafts.push({
      kind: "spare-drain",
      of: flow.id,
      title: `A spare drain of full size for ${flow.to}`,
      parts: [flow.id, flow.to],
      edits: [
        set([...flowPath(site, flow), "spare-drain"], `${formatNumber(Math.max(flow.drainLPerH, pump.flowLPerH))} L/h`),
        ...((flow.testedMonths ?? null) === null ? [set([...flowPath(site, flow), "tested"], "1 month")] : []),
      ],
      why: "When a snail or weed shuts the drain, the water finds another way down.",
      needs: `A second pipe from ${flow.to} to ${flow.from}, dry in normal running, tried by plugging the first now and every three months.`,
      caution: "Have holes in glass drilled by somebody who does it for a living, and empty the tank first.",
      meets: (finding) =>
        finding.part === flow.id && ["drain-blocked", "drain-narrowed", "screen-clogs"].includes(finding.mode),
    });
  const freeL = from.brimL - from.volumeL - flow.weirHeadL - flow.backSiphonL;
  if (flow.backSiphonUnbrokenL > Math.max(1, freeL))
    drafts.push({
      kind: "nozzle-raised",
      of: flow.id,
      title: `A nozzle in ${flow.to} that lies just under the surface`,
      parts: [flow.id],
      edits: [set([...flowPath(site, flow), "back-siphon-unbroken"], litres(Math.max(1, Math.floor(0.8 * freeL))))],
      why: `Whatever runs back with the hole grown shut must find room in ${flow.from}.`,
      needs:
        "A shorter nozzle and two holes; then the plug pulled, with a finger on the holes, and a look at the sump.",
      meets: (finding) =>
        finding.faults.length === 2 &&
        finding.faults.some(
          (fault) => fault === `${flow.id}.siphon-break-plugged` || fault === `${flow.id}.check-valve-open`,
        ),
    });
  return drafts;
}

/** Floors count as made to be wet only where every room has a drain. */
function floorDrain(site: Site): readonly Draft[] {
  const dry = site.rooms.filter(({ floorDrain: drained }) => !drained).map(({ id }) => id);
  if (dry.length === 0) return [];
  return [
    {
      kind: "floor-drain",
      of: "site",
      title: `A drain in the floor of ${dry.join(" and ")}`,
      parts: dry,
      edits: dry.map((room) => set(["rooms", room, "floor-drain"], "yes")),
      why: "A floor that is made to be wet bears ten times as much.",
      needs: "Building work: a drain with a trap, and a floor that falls towards it.",
      caution:
        "Floors and drains are work for licensed people under the local code, and salt water may not go into every drain.",
      times: dry.length,
      meets: (finding) => finding.stressor === "water on the floor",
    },
  ];
}

function pumpService(site: Site, pump: Device): readonly Draft[] {
  if (pump.kind !== "return-pump" || pump.cleanedMonths <= 3) return [];
  return [
    {
      kind: "pump-service",
      of: pump.id,
      title: `${pump.id} taken apart and cleaned, now and every three months`,
      parts: [
        pump.id,
        ...pumpedFlows(site, pump.system)
          .filter(({ by }) => by === pump.id)
          .map(({ id }) => id),
      ],
      edits: [set(["devices", pump.id, "cleaned"], "1 month")],
      why: "A pump full of scale runs on for months and does not start again after the next cut.",
      needs: `${pump.id} soaked in citric acid, rinsed and seen to start, and this kept up every three months.`,
      caution: "Add acid to water, in fresh air, with goggles and gloves, and never in the tank.",
      meets: (finding) =>
        finding.faults.includes(`${pump.id}.no-restart`) || (finding.part === pump.id && finding.mode === "slows"),
    },
  ];
}

function feederOnCells(device: Device): readonly Draft[] {
  if (device.kind !== "feeder" || device.on === null) return [];
  return [
    {
      kind: "feeder-on-cells",
      of: device.id,
      title: `A feeder on cells of its own in place of ${device.id}`,
      parts: [device.id],
      edits: [set(["devices", device.id, "on"], "none"), set(["devices", device.id, "power"], "0 W")],
      why: "A feeder without a lead that falls in brings its food, but opens no protection.",
      needs: "A feeder that runs on cells, changed twice a year and before every absence.",
      meets: (finding) => finding.part === device.id && finding.mode === "falls-in-wet",
    },
  ];
}
