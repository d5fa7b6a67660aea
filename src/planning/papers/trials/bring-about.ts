/**
 * How to make a sensor say what a rule asks for, without touching the water that the animals live in: the probe goes into a cup of
 * tank water, a float is lifted with a rod, a leak sensor meets a wet cloth. Only what moves or is plugged in may stand still for it.
 */
import { comparisonWords } from "../../../rules/index.ts";
import type { Comparison, Quantity, Sensor, Site } from "../../../site/index.ts";
import { CAUTION } from "../cautions.ts";
import { unitOf } from "../words.ts";
import { plugWords } from "./plugs.ts";

export interface BringAbout {
  readonly steps: readonly string[];
  readonly putBack: string;
  readonly caution: string | null;
  /** Longest that it may be kept up, s: a probe out of its tank, a pump that stands still. */
  readonly longestS: number;
}

/** A probe may sit in its cup for an hour; nothing that keeps animals alive stands still for longer than twenty minutes. */
const IN_CUP_S = 3600;
const STANDING_S = 1200;
const NO_LIMIT_S = 86_400;
const LIFE_SUPPORT = ["return-pump", "wave-pump", "air-pump", "skimmer", "heater", "chiller"];

export function bringAbout(site: Site, sensor: Sensor, is: Comparison): BringAbout {
  const words = comparisonWords(is, unitOf(site)(sensor.id));
  if (is.op === "silent") {
    return {
      steps: [`Unplug the lead of ${sensor.id} where it goes into ${sensor.hub ?? "its reader"}.`],
      putBack: `Plug the lead of ${sensor.id} in again and see that its reading is back.`,
      caution: null,
      longestS: IN_CUP_S,
    };
  }
  const cup = CUPS[sensor.measures];
  if (cup !== undefined) return inCup(sensor, is, words, cup);
  return byHand(site, sensor, is, words);
}

interface Cup {
  /** How the sensor gets at the cup; left out: a probe is moved into it. */
  readonly gets?: string;
  readonly higher: string;
  readonly lower: string;
  readonly caution: string | null;
}

const CUPS: Partial<Readonly<Record<Quantity, Cup>>> = {
  temperature: {
    higher: "pour in a little warm water at a time",
    lower: "stand the cup in cold water with ice",
    caution: null,
  },
  ph: {
    higher: "stir in washing soda, a few grains at a time",
    lower: "stir in vinegar, a few drops at a time",
    caution: CAUTION.solution,
  },
  salinity: {
    higher: "stir in salt mix, a pinch at a time",
    lower: "pour in fresh water, a little at a time",
    caution: null,
  },
  oxygen: {
    higher: "blow air through the cup with an air stone",
    lower: "use tank water that was boiled and left to cool covered, and do not stir it",
    caution: null,
  },
  alkalinity: {
    gets: "lead the intake hose of {sensor} into the cup, and start a test by hand where it can",
    higher: "stir in baking soda, a pinch at a time",
    lower: "pour in fresh water, a little at a time",
    caution: null,
  },
  orp: {
    higher: "stir in vinegar, a few drops at a time",
    lower: "stir in a crumb of vitamin C",
    caution: CAUTION.solution,
  },
};

function inCup(sensor: Sensor, is: Comparison, words: string, cup: Cup): BringAbout {
  const { higher, lower, caution, gets = "move {sensor} into the cup" } = cup;
  return {
    steps: [
      `Dip a cup of water out of ${sensor.at} and ${gets.replace("{sensor}", sensor.id)}.`,
      cupStep(sensor.id, is, words, higher, lower),
    ],
    putBack: `Rinse ${sensor.id}, put it back into ${sensor.at} where it was, see that it reads as before, and pour the cup away.`,
    caution: caution ?? CAUTION.lead,
    longestS: IN_CUP_S,
  };
}

function cupStep(id: string, is: Comparison, words: string, higher: string, lower: string): string {
  switch (is.op) {
    case "below":
      return `In the cup only: ${lower}, until ${id} reads ${words}, and keep it there.`;
    case "falling":
      return `In the cup only: ${lower}, slowly and evenly, so that the reading goes on ${words}.`;
    case "rising":
      return `In the cup only: ${higher}, slowly and evenly, so that the reading goes on ${words}.`;
    case "unchanged":
      return `Cover the cup and leave it still, so that the reading stays ${words}.`;
    default:
      return `In the cup only: ${higher}, until ${id} reads ${words}, and keep it there.`;
  }
}

/** Contacts, levels, and what is measured at a device, a circuit or in the air. */
function byHand(site: Site, sensor: Sensor, is: Comparison, words: string): BringAbout {
  const { id, at } = sensor;
  const down = is.op === "below" || is.op === "falling" || is.op === "absent" || is.op === "dry";
  const of = (steps: readonly string[], putBack: string, caution: string | null, longestS: number): BringAbout => ({
    steps,
    putBack,
    caution,
    longestS,
  });
  if (is.op === "unchanged")
    return of(
      [`Leave ${id} and what it measures as they are, so that it stays ${words}.`],
      "Nothing was moved.",
      null,
      NO_LIMIT_S,
    );
  switch (sensor.measures) {
    case "leak":
      return down
        ? of([`Dry ${id} and the floor under it.`], `Leave ${id} flat on the floor.`, CAUTION.flood, NO_LIMIT_S)
        : of(
            [`Lay a cloth that is wet with fresh water over ${id}, and keep it there.`],
            `Take the cloth away and dry ${id} and the floor.`,
            CAUTION.flood,
            NO_LIMIT_S,
          );
    case "float":
      return of(
        [`${down ? "Push" : "Lift"} the float of ${id} ${down ? "down" : "up"} with a plastic rod, and hold it there.`],
        `Let the float go and see that it moves freely.`,
        CAUTION.rod,
        STANDING_S,
      );
    case "level":
      return down
        ? of(
            [`Lift ${id} slowly out of the water of ${at} until it reads ${words}, and hold it there.`],
            `Put ${id} back at its mark and see that it reads as before.`,
            CAUTION.rod,
            STANDING_S,
          )
        : of(
            [`Hang ${id} deeper, in a bucket with water of ${at}, until it reads ${words}.`],
            `Put ${id} back at its mark and see that it reads as before.`,
            CAUTION.rod,
            STANDING_S,
          );
    case "mains":
      return of(
        [down ? `Pull the own plug of ${id} out of ${at}.` : `Put the own plug of ${id} into a live socket of ${at}.`],
        down ? `Put the plug of ${id} back into ${at}.` : `Leave ${id} plugged in.`,
        CAUTION.plug,
        NO_LIMIT_S,
      );
    case "flow":
    case "power":
      return atDevice(site, sensor, down, words);
    case "light":
      return of(
        [down ? `Cover ${id} with a dark cloth.` : `Hold a bright torch close to ${id} until it reads ${words}.`],
        down ? "Take the cloth away." : "Take the torch away.",
        null,
        NO_LIMIT_S,
      );
    case "air-co2":
      return of(
        [down ? `Hold ${id} out of an open window.` : `Breathe on ${id} until it reads ${words}.`],
        `Put ${id} back in its place in ${at}.`,
        null,
        NO_LIMIT_S,
      );
    default:
      return of(
        [
          down
            ? `Lay a bag of ice beside ${id} until it reads ${words}.`
            : `Hold ${id} in a warm hand or beside a hot-water bottle until it reads ${words}.`,
        ],
        `Leave ${id} in its place in ${at}.`,
        null,
        NO_LIMIT_S,
      );
  }
}

function atDevice(site: Site, sensor: Sensor, down: boolean, words: string): BringAbout {
  const { id, at, measures } = sensor;
  const device = site.devices.find((one) => one.id === at);
  if (down) {
    const isLife = device !== undefined && LIFE_SUPPORT.includes(device.kind);
    return {
      steps: [
        device === undefined
          ? `Unplug what runs on ${at} by and by until ${id} reads ${words}.`
          : `Unplug ${plugWords(device)}.`,
      ],
      putBack: `Plug ${at} in again and see that it runs and that ${id} reads as before.`,
      caution: CAUTION.plug,
      longestS: device === undefined || isLife ? STANDING_S : NO_LIMIT_S,
    };
  }
  return {
    steps: [
      measures === "power"
        ? `Plug a lamp or another small load in behind ${id} until it reads ${words}, and stay well below what the socket may carry.`
        : `Set ${at} faster until ${id} reads ${words}.`,
    ],
    putBack: measures === "power" ? "Take the load away." : `Set ${at} back.`,
    caution: CAUTION.plug,
    longestS: NO_LIMIT_S,
  };
}
