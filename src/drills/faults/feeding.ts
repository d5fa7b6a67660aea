/** Food: none, too much, all at once. */
import { bodyById, deviceById } from "../../site/index.ts";
import { aerateBody, CLEAN_UP_SHARE, changeWaterOf, mend, unplugAndClose } from "./ends.ts";
import type { Bench, FaultMode } from "./fault.ts";
import { devicesOf, devicesWhere, leakTrips, watersWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** What lies in the drum falls out at once, and nothing comes afterwards. */
function dump(bench: Bench, part: string): void {
  const { in: body, holdsG } = deviceById(bench.site, part);
  bench.food(body, holdsG);
  bench.set(part, "output", 0);
}

/** Net out the food, aerate, change water. */
function cleanUp(bench: Bench, body: string): void {
  aerateBody(bench, body);
  changeWaterOf(bench, body, CLEAN_UP_SHARE);
}

const FED_LEAK_MA = 100;
/** Dry food that a helper gives in one go, as a share of the fishes' weight: about ten good days. */
const OVERFED_SHARE = 0.12;
/** What a child finds in the tin, g. */
const TIN_G = 60;

const dumpEnd: FaultMode["end"] = {
  act: "take the food out, aerate and change water",
  needs: "water-change",
  minutes: 60,
  apply(bench, part) {
    bench.release(part);
    cleanUp(bench, deviceById(bench.site, part).in);
  },
};

const hasFish = watersWhere((body) => body.livestock.fishG > 0);

export const feedingModes: readonly FaultMode[] = [
  {
    mode: "jams",
    group: "feeding",
    name: "Feeder jams",
    onset: "sudden",
    of: "device",
    parts: devicesOf("feeder"),
    inject: (bench, part) => bench.set(part, "output", 0),
    end: { act: "clear {part} and feed by hand", needs: "feed", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(
      0.3,
      "taking one failure a year for a feeder; three in ten of one public tally are jams, most with the owner away",
    ),
    helps: ["a second feeder", "someone who feeds twice a week"],
  },
  {
    mode: "dumps",
    group: "feeding",
    name: "Feeder drops its whole drum at once",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.kind === "feeder" && device.holdsG > 0),
    inject: dump,
    end: dumpEnd,
    sight: "cloud",
    rate: reported(
      0.1,
      "taking one failure a year for a feeder; dumps are a third as common as jams in one public tally",
    ),
    helps: ["a drum of {part} that holds no more than the tank bears", "an oxygen or redox probe with a notice"],
  },
  {
    mode: "falls-in-wet",
    group: "feeding",
    name: "Feeder falls into the water with all its food and its current",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) =>
        device.kind === "feeder" && device.holdsG > 0 && device.on !== null && leakTrips(site, device.on, FED_LEAK_MA),
    ),
    inject(bench, part) {
      dump(bench, part);
      bench.set(part, "leakMA", FED_LEAK_MA);
    },
    end: {
      act: "unplug {part}, close the breaker, take the food out and change water",
      needs: "water-change",
      minutes: 75,
      apply(bench, part) {
        unplugAndClose(bench, part);
        cleanUp(bench, deviceById(bench.site, part).in);
      },
    },
    sight: "cloud",
    rate: guess(0.01, "brackets that let go"),
    helps: ["a tether on {part}", "a feeder on its own batteries"],
  },
  {
    mode: "cakes",
    group: "feeding",
    name: "Food in the feeder cakes with damp",
    onset: "creeping",
    of: "device",
    parts: devicesOf("feeder"),
    // Over open water a drum is stuck after ten days or so.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.1),
    end: { act: "dry and refill {part}", needs: "feed", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(0.5, "common above open tanks"),
    helps: ["a feeder with a dry-air feed", "fresh food and a dry drum before every absence"],
  },
  {
    mode: "portions-large",
    group: "feeding",
    name: "Feeder gives four times the portion",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.kind === "feeder" && device.holdsG > 0),
    inject: (bench, part) => bench.set(part, "output", 4),
    end: { act: "set the portion of {part} again", needs: "feed", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(
      0.1,
      "taking one failure a year for a feeder; wrong settings are a quarter of one public tally, some of them too much",
    ),
    helps: ["a week's trial of every new setting before leaving", "a drum of {part} that holds little"],
  },
  {
    mode: "stops",
    group: "feeding",
    name: "Feeder is dead",
    onset: "sudden",
    of: "device",
    parts: devicesOf("feeder"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: {
      act: "replace the batteries or the plug of {part} and feed by hand",
      needs: "feed",
      minutes: 10,
      apply: mend,
    },
    sight: "display",
    rate: reported(0.3, "taking one failure a year for a feeder; no power is a third of one public tally"),
    helps: ["new batteries before every absence", "someone who feeds twice a week"],
  },
  {
    mode: "overfed",
    group: "feeding",
    name: "Helper feeds ten days' food in one go",
    onset: "sudden",
    of: "body",
    parts: hasFish,
    inject: (bench, part) => bench.food(part, OVERFED_SHARE * bodyById(bench.site, part).livestock.fishG),
    end: {
      act: "take the food out, aerate and change water",
      needs: "water-change",
      minutes: 45,
      apply: cleanUp,
    },
    sight: "cloud",
    rate: reported(0.2, "every guide to tank sitting warns of it"),
    helps: ["food in boxes, one a day, and the tin locked away", "an oxygen or redox probe with a notice"],
  },
  {
    mode: "tin-emptied",
    group: "feeding",
    name: "Child or guest empties the food tin into the tank",
    onset: "sudden",
    of: "body",
    parts: hasFish,
    inject: (bench, part) => bench.food(part, TIN_G),
    end: {
      act: "take the food out, aerate and change water",
      needs: "water-change",
      minutes: 60,
      apply: cleanUp,
    },
    sight: "cloud",
    rate: guess(0.01, "where children or the public come near"),
    helps: ["the tin locked away", "a lid or net on {part}"],
  },
];
