/** Animals that die, melt, spawn or simply grow. */
import { bodyById, deviceById } from "../../site/index.ts";
import { aerateBody, CLEAN_UP_SHARE, changeWaterOf, mend } from "./ends.ts";
import type { Bench, FaultMode } from "./fault.ts";
import { devicesWhere, isLivestocked, supplyOf, watersWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** The largest fish holds a quarter of the stock's weight; between a small goby and a large surgeonfish, g. */
const LARGEST_SHARE = 0.25;
const LARGEST_G = { least: 30, most: 600 } as const;
const SMALL_G = 15;
/** An anemone fits its tank: g per litre, and g at most. */
const ANEMONE = { gramsPerL: 0.4, most: 200 } as const;
/** Wet weight of soft tissue on a square metre of coral, g; the share of a stock that melts at once. */
const TISSUE_G_PER_M2 = 1500;
const MELTING_SHARE = 0.3;

function anemoneG(bench: Bench, body: string): number {
  return Math.min(ANEMONE.most, ANEMONE.gramsPerL * bodyById(bench.site, body).volumeL);
}

/** Share of what rots that a net and a siphon bring out once it is found. */
const NETTED_SHARE = 0.8;

/** Takes out what is dead, aerates, changes water. */
function takeOut(bench: Bench, body: string): void {
  bench.release(body);
  bench.takeOut(body, NETTED_SHARE);
  aerateBody(bench, body);
  changeWaterOf(bench, body, CLEAN_UP_SHARE);
}

const OUT: FaultMode["end"] = {
  act: "find and take out what is dead, aerate and change water",
  needs: "water-change",
  minutes: 60,
  apply: takeOut,
};

const FIND = [
  "a count of heads every day",
  "an oxygen or redox probe with a notice",
  "carbon and prepared salt water at hand",
];

export const livestockModes: readonly FaultMode[] = [
  {
    mode: "large-animal-dies",
    group: "livestock",
    name: "Large animal dies out of sight",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.livestock.fishG > 0),
    inject(bench, part) {
      const { fishG } = bodyById(bench.site, part).livestock;
      bench.carcass(part, Math.min(LARGEST_G.most, Math.max(LARGEST_G.least, LARGEST_SHARE * fishG)));
    },
    end: OUT,
    sight: "animals",
    rate: reported(0.3, "common over the years of a stock"),
    helps: FIND,
  },
  {
    mode: "small-animal-dies",
    group: "livestock",
    name: "Small animal dies in the rock",
    onset: "sudden",
    of: "body",
    parts: watersWhere(isLivestocked),
    inject: (bench, part) => bench.carcass(part, SMALL_G),
    end: OUT,
    sight: "nothing",
    rate: reported(1, "snails, crabs and small fish, every year"),
    helps: FIND,
  },
  {
    mode: "corals-melt",
    group: "livestock",
    name: "Corals melt within days",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.livestock.corals !== null && body.livestock.coralM2 > 0),
    inject(bench, part) {
      const { coralM2 } = bodyById(bench.site, part).livestock;
      bench.carcass(part, MELTING_SHARE * TISSUE_G_PER_M2 * coralM2);
      bench.set(part, "demand", 1.5);
      bench.set(part, "calcify", 0.5);
    },
    end: { ...OUT, act: "take out what melts, run carbon, aerate and change water" },
    sight: "smell",
    rate: reported(0.05, "soft corals above all, for causes that are seldom found"),
    helps: [
      "prepared salt water for a third of the system",
      "carbon at hand",
      "an oxygen or redox probe with a notice",
    ],
  },
  {
    mode: "mass-spawning",
    group: "livestock",
    name: "Animals spawn and the water clouds",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.livestock.corals !== null || body.livestock.invertebrates),
    inject: (bench, part) => bench.set(part, "demand", 2.5),
    lastsMin: 720,
    end: {
      act: "aerate hard and run carbon",
      needs: "everything",
      minutes: 20,
      apply: aerateBody,
    },
    sight: "cloud",
    rate: guess(0.02, "rare in tanks"),
    helps: ["an air pump or skimmer with power to spare", "an oxygen or redox probe with a notice"],
  },
  {
    mode: "shreds-an-animal",
    group: "livestock",
    name: "Anemone walks into a pump and is shredded",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) => device.kind === "wave-pump" && bodyById(site, device.in).livestock.invertebrates,
    ),
    inject(bench, part) {
      const body = deviceById(bench.site, part).in;
      bench.carcass(body, anemoneG(bench, body));
      bench.set(part, "dead", 1);
    },
    end: {
      act: "clean {part}, take out the remains and change water",
      needs: "water-change",
      minutes: 60,
      apply(bench, part) {
        mend(bench, part);
        changeWaterOf(bench, deviceById(bench.site, part).in, CLEAN_UP_SHARE);
      },
    },
    sight: "cloud",
    rate: reported(0.05, "where anemones are kept"),
    helps: ["a guard on {part}", "a notice when {part} draws more or less power than it did"],
  },
  {
    mode: "corals-stop-growing",
    group: "livestock",
    name: "Corals stop taking up alkalinity while dosing goes on",
    onset: "sudden",
    of: "body",
    parts: watersWhere(
      (body, site) =>
        body.livestock.alkalinityDemandDKHPerDay > 0 &&
        site.devices.some(
          (device) => device.system === body.system && (device.kind === "doser" || device.kind === "calcium-reactor"),
        ),
    ),
    inject: (bench, part) => bench.set(part, "calcify", 0.1),
    end: {
      act: "halve the dose until they grow again",
      needs: "everything",
      minutes: 20,
      apply: mend,
    },
    sight: "animals",
    rate: guess(0.1, "after a scare of heat, light or medicine"),
    helps: ["a test of alkalinity twice a week, or a tester that does it", "a limit on what is dosed in a day"],
  },
  {
    mode: "outgrown",
    group: "livestock",
    name: "Stock has grown and breathes half as much again",
    onset: "latent",
    of: "body",
    parts: watersWhere(isLivestocked),
    inject: (bench, part) => bench.set(part, "demand", 1.5),
    end: { act: "give some animals of {part} away, or add air", needs: "everything", minutes: 60, apply: aerateBody },
    sight: "nothing",
    rate: guess(0.2, "stocks that are some years old"),
    helps: [
      "an air pump on another supply",
      "a switch-off trial by day: minutes until the first animal shows distress",
    ],
    triedEveryMonths: () => null,
    backs(site, part) {
      const { system } = bodyById(site, part);
      const moving = site.devices.filter(
        (device) =>
          device.system === system && ["return-pump", "wave-pump", "skimmer", "air-pump"].includes(device.kind),
      );
      return [...new Set(moving.flatMap((device) => [device.id, ...supplyOf(site, device.id)]))];
    },
  },
];
