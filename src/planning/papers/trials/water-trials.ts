/** Trials of what stands behind water and warmth: siphon breaks, valves, spare drains, cut-outs, second floats, spare devices. */
import { formatNumber } from "../../../foundation/index.ts";
import { spanWords } from "../../../rules/index.ts";
import { bodyById, type Device, type Flow, type Site } from "../../../site/index.ts";
import { CAUTION } from "../cautions.ts";
import type { Trial } from "../types.ts";
import { plugWords, roomSteps, runsBackL } from "./plugs.ts";
import { QUARTER_MONTHS } from "./quarter.ts";

/** Water that runs back has come to rest after this, s. */
const RUNS_BACK_S = 180;
const VALVE_S = 300;
const SPARE_RUN_S = 600;
const BUCKET_L = 10;
const HEAT_J_PER_L_K = 4000;
/** A pump stands still for this long, s, which no animal feels. */
const PAUSE_S = 60;

type Told = Omit<Trial, "id" | "part" | "everyMonths">;

export function waterTrials(site: Site): readonly Trial[] {
  return [
    ...site.flows.flatMap((flow) => flowTrials(site, flow)),
    ...site.devices.flatMap((device) => deviceTrials(site, device)),
  ];
}

function trial(part: string, what: string, told: Told): Trial {
  return { id: `${part}.${what}`, part, everyMonths: QUARTER_MONTHS, ...told };
}

const ofFlow = { of: "flow", key: "testedMonths" } as const;
const ofDevice = { of: "device", key: "testedMonths" } as const;

function litres(volumeL: number): string {
  return `${formatNumber(Math.round(volumeL * 10) / 10)} L`;
}

function flowTrials(site: Site, flow: Flow): readonly Trial[] {
  const pump = site.devices.find(({ id }) => id === flow.by);
  if (pump === undefined) return [];
  const trials: Trial[] = [];
  if (flow.backSiphonUnbrokenL > flow.backSiphonL)
    trials.push(trial(flow.id, "siphon-break", siphonBreak(site, flow, pump)));
  if (flow.checkValve) trials.push(trial(flow.id, "check-valve", checkValve(site, flow, pump)));
  if (flow.spareDrainLPerH > 0) trials.push(trial(flow.id, "spare-drain", spareDrain(flow)));
  return trials;
}

function siphonBreak(site: Site, flow: Flow, pump: Device): Told {
  const { from } = flow;
  if (flow.checkValve) {
    return {
      title: `Siphon-break hole of ${flow.id} is open`,
      steps: [
        `Unplug ${plugWords(pump)} for a minute: the check valve holds the water, so the hole must be looked at by itself.`,
        "Push a thin plastic rod through the hole from outside the water.",
      ],
      must: ["The rod goes through, and nothing has grown over the hole."],
      withinS: null,
      putBack: `Plug ${pump.id} in and see that it starts and the water comes over.`,
      caution: CAUTION.plug,
      renews: ofFlow,
    };
  }
  const comesL = runsBackL(flow);
  const sump = bodyById(site, from);
  const roomL = sump.brimL - sump.volumeL;
  return {
    title: `Siphon break of ${flow.id} stops the water`,
    steps: [
      ...roomSteps(site, [pump.id]),
      `Mark the level of ${from}. There is room for about ${litres(roomL)} before it runs over.`,
      `Stay beside it with the plug in your hand: unplug ${plugWords(pump)}.`,
      `If ${from} still rises when more than ${litres(comesL)} have come, plug ${pump.id} in again at once.`,
    ],
    must: [`Air is drawn at the hole and ${from} stops rising, after about ${litres(comesL)}.`],
    withinS: RUNS_BACK_S,
    putBack: `Plug ${pump.id} in and see that it starts and the levels come back.`,
    caution: CAUTION.flood,
    renews: ofFlow,
  };
}

function checkValve(site: Site, flow: Flow, pump: Device): Told {
  return {
    title: `Check valve of ${flow.id} holds`,
    steps: [
      ...roomSteps(site, [pump.id]),
      `Mark the level of ${flow.from} and stay beside it with the plug in your hand: unplug ${plugWords(pump)}.`,
      `Wait ${spanWords(VALVE_S)}, and plug it in again at once if the water goes on rising.`,
    ],
    must: [`${flow.from} takes what stood over the weir, about ${litres(flow.weirHeadL)}, and then stands still.`],
    withinS: VALVE_S,
    putBack: `Plug ${pump.id} in and see that it starts and the levels come back.`,
    caution: CAUTION.flood,
    renews: ofFlow,
  };
}

function spareDrain(flow: Flow): Told {
  return {
    title: `Spare drain of ${flow.id} takes over`,
    steps: [
      `Half close the valve of the main drain and keep your hand on it.`,
      `Watch the level of ${flow.to}, and open the valve again before it comes near the rim.`,
    ],
    must: [`The spare drain is heard to run and ${flow.to} stops rising below its rim.`],
    withinS: RUNS_BACK_S,
    putBack: "Open the valve to where it was and see that the spare drain falls dry.",
    caution: CAUTION.flood,
    renews: ofFlow,
  };
}

function deviceTrials(site: Site, device: Device): readonly Trial[] {
  const { id, ownFloat, cutOutC, spare, kind } = device;
  const trials: Trial[] = [];
  if (spare !== null) trials.push(trial(id, "runs", spareTrial(device)));
  if (kind === "return-pump" && spare === null) trials.push(trial(id, "starts-again", startsAgain(site, device)));
  if (cutOutC !== null) trials.push(trial(id, "cut-out", cutOutTrial(device, cutOutC)));
  if (ownFloat !== null && ownFloat.spareL !== null) trials.push(trial(id, "second-float", secondFloat(site, device)));
  if (ownFloat !== null && ownFloat.longestRunS !== null)
    trials.push(trial(id, "longest-run", longestRun(site, device, ownFloat.longestRunS)));
  return trials;
}

function startsAgain(site: Site, device: Device): Told {
  return {
    title: `Pump ${device.id} starts again once it has stopped`,
    steps: [
      ...roomSteps(site, [device.id]),
      `Unplug ${plugWords(device)} for ${spanWords(PAUSE_S)}, let the water come to rest, and plug it in again.`,
    ],
    must: ["It starts by itself, without a knock or a turn by hand, and carries as much as before."],
    withinS: PAUSE_S,
    putBack: "See that the levels come back.",
    caution: CAUTION.plug,
    renews: ofDevice,
  };
}

function cutOutTrial(device: Device, cutOutC: number): Told {
  return {
    title: `Cut-out of ${device.id} cuts off`,
    steps: [
      `Unplug ${plugWords(device)} and leave it in the water to cool.`,
      "Put a lamp into the outlet of the cut-out in place of the heater.",
      `Dip a cup of water out of ${device.in}, put the feeler of the cut-out into the cup, and pour in a little warm water at a time.`,
      "Where the feeler cannot be taken out, do not try it: have the cut-out replaced by its age.",
    ],
    must: [`The lamp goes out when the cup is at about ${formatNumber(cutOutC)} °C, and comes back as its maker says.`],
    withinS: null,
    putBack: `Put the feeler back into ${device.in}, take the lamp away, plug ${device.id} in and see that it heats.`,
    caution: CAUTION.heater,
    renews: ofDevice,
  };
}

/** What a top-off pours goes into a bucket, not into the tank; limewater has its own caution. */
function pouredAside(site: Site, device: Device): { readonly step: string; readonly caution: string } {
  const source = site.bodies.find(({ id }) => id === device.from);
  return {
    step: `Lead the outlet of ${device.id} into an empty bucket, so that nothing gets into ${device.in}.`,
    caution: source?.holds.kind === "limewater" ? CAUTION.lime : CAUTION.rod,
  };
}

function secondFloat(site: Site, device: Device): Told {
  const aside = pouredAside(site, device);
  return {
    title: `Second float of ${device.id} stops it`,
    steps: [
      aside.step,
      `With a plastic rod hold the working float down until ${device.id} runs, and then lift the second float.`,
    ],
    must: [`${device.id} stops at once.`],
    withinS: null,
    putBack: `Let both floats go, see that they move freely, pour the bucket back, and put the outlet back above the water of ${device.in}.`,
    caution: aside.caution,
    renews: ofDevice,
  };
}

function longestRun(site: Site, device: Device, longestRunS: number): Told {
  const aside = pouredAside(site, device);
  const poursL = (device.flowLPerH * longestRunS) / 3600;
  return {
    title: `Longest run of ${device.id} is kept`,
    steps: [aside.step, `It must take ${litres(poursL)}. With a plastic rod hold the working float down and wait.`],
    must: [`${device.id} stops by itself after ${spanWords(longestRunS)}.`],
    withinS: longestRunS,
    putBack: `Let the float go, start ${device.id} again as its maker says, pour the bucket back, and put the outlet back above the water of ${device.in}.`,
    caution: aside.caution,
    renews: ofDevice,
  };
}

function spareTrial(device: Device): Told {
  const told = spareByKind(device);
  return {
    title: `Spare ${device.id} runs`,
    withinS: SPARE_RUN_S,
    putBack: `Put ${device.id} back where it waits, with its plug where it can be reached.`,
    renews: { of: "spare", key: "lastTriedMonths" },
    ...told,
  };
}

function spareByKind(device: Device): Pick<Told, "steps" | "must" | "caution"> {
  const run = spanWords(SPARE_RUN_S);
  switch (device.kind) {
    case "heater": {
      const risesC = (device.powerW * SPARE_RUN_S) / (BUCKET_L * HEAT_J_PER_L_K);
      return {
        steps: [
          `Stand ${device.id} in a bucket with ${BUCKET_L} L of water that covers it, with a thermometer, away from the tank.`,
          `Turn it up, plug it in for ${run}, stir, and unplug it.`,
        ],
        must: [`The bucket is about ${formatNumber(Math.round(risesC * 10) / 10)} °C warmer.`],
        caution: CAUTION.heater,
      };
    }
    case "chiller":
      return {
        steps: [`Let ${device.id} run on a bucket of water for ${run}.`],
        must: ["The water that comes out is colder than what goes in."],
        caution: CAUTION.plug,
      };
    case "air-pump":
      return {
        steps: [`Switch ${device.id} on where it stands, on the power that it would have in need, for ${run}.`],
        must: ["Bubbles rise evenly from its stone the whole time."],
        caution: CAUTION.plug,
      };
    case "steriliser":
      return {
        steps: [`Switch ${device.id} on, closed and filled, for ${run}.`],
        must: ["Its own lamp sign shows that it burns."],
        caution: CAUTION.uv,
      };
    default:
      return {
        steps: [`Run ${device.id} for ${run}; a pump in a bucket of water, and never dry.`],
        must: ["It starts by itself and does its work the whole time, without a new noise."],
        caution: CAUTION.plug,
      };
  }
}
