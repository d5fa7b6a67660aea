/** Doses that are too much, too little or of the wrong thing, and water changes that do not balance. */
import { bodyById, type Device, deviceById, type Site } from "../../site/index.ts";
import { DKH_TO_EQ_PER_L, systemWaterL } from "../../twin/index.ts";
import { aerateBody, changeWaterOf, mend, mendAndRefill, unplug } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { bodiesWhere, devicesOf, devicesWhere, watersWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** Drops a fifth of a litre to two litres an hour through idle rollers; the middle by its logarithm, L/h. */
const CONTAINER_SIPHON_L_PER_H = 0.6;
/** Slip of a hand dose, dKH in the whole system. */
const HAND_SLIP_DKH = 4;
/** Undissolved lime that a stirred-up reservoir sends over, g per litre of system water. */
const SLURRY_G_PER_L = 0.05;
const LIME_G_PER_MOL = 74.09;
const ETHANOL_G_PER_MOL = 46.07;
/** Days of carbon source that a restart at full strength gives at once. */
const CARBON_DAYS = 10;
/** A pair of doses this close to equal does no harm when swapped. */
const EQUAL_SHARE = 0.1;

const isDoser = (device: Device) => device.kind === "doser" && device.from !== null;

function contentOf(site: Site, device: Device): string | null {
  if (device.from === null) return null;
  const { holds } = bodyById(site, device.from);
  return holds.kind === "solution" ? holds.of : holds.kind;
}

/** The calcium doser beside an alkalinity doser that gives another volume a day. */
function partnerOf(site: Site, alkalinity: Device): Device | undefined {
  if (!isDoser(alkalinity) || contentOf(site, alkalinity) !== "alkalinity" || alkalinity.amountPerDay <= 0)
    return undefined;
  return site.devices.find(
    (other) =>
      isDoser(other) &&
      other.system === alkalinity.system &&
      contentOf(site, other) === "calcium" &&
      other.amountPerDay > 0 &&
      Math.abs(other.amountPerDay / alkalinity.amountPerDay - 1) > EQUAL_SHARE,
  );
}

function dosersFrom(site: Site, body: string): readonly Device[] {
  return site.devices.filter((device) => device.kind === "doser" && device.from === body);
}

/** Systems whose owner doses by hand. */
function dosesByHand(site: Site, system: string): boolean {
  return !site.devices.some(
    (device) => device.system === system && (device.kind === "doser" || device.kind === "calcium-reactor"),
  );
}

export const dosingModes: readonly FaultMode[] = [
  {
    mode: "will-not-stop",
    group: "dosing",
    name: "Dosing pump will not stop",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => isDoser(device) && device.flowLPerH > 0),
    inject(bench, part) {
      bench.set(part, "thermostat", 1);
      bench.set(part, "schedule", 1);
      if (deviceById(bench.site, part).by !== null) bench.set(part, "socket", 1);
    },
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "noise",
    rate: guess(0.003, "shorted driver or hung output, three in a thousand a year"),
    helps: [
      "a container that holds no more than the animals bear at once",
      "a pH limit that cuts the socket of {part}",
      "a weaker solution",
    ],
  },
  {
    mode: "stops",
    group: "dosing",
    name: "Dosing pump stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("doser"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "replace {part} and dose by hand meanwhile", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: guess(0.04, "pump heads of this size"),
    helps: ["a test of alkalinity twice a week, or a tester that does it", "a mark and a date on the container"],
  },
  {
    mode: "air-lock",
    group: "dosing",
    name: "Dosing pump turns, but nothing comes",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(isDoser),
    inject: (bench, part) => bench.set(part, "idle", 1),
    end: { act: "clear the hose of {part}", needs: "repair", minutes: 15, apply: mend },
    sight: "nothing",
    rate: guess(0.06, "clogged, cracked or unhooked hoses"),
    helps: ["a level notice on the container of {part}", "a test of alkalinity twice a week, or a tester that does it"],
  },
  {
    mode: "wears",
    group: "dosing",
    name: "Dosing hose wears and gives less",
    onset: "creeping",
    of: "device",
    parts: devicesWhere(isDoser),
    // A hose loses 5 to 20 % over months before it tears; the last month, in which it goes fastest, is taken.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.007),
    end: { act: "put a new hose into {part} and measure its dose", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: reported(0.8, "every hose, within a year or so"),
    helps: ["a measured dose every three months, a new hose every year", "a weekly test of alkalinity"],
  },
  {
    mode: "siphons",
    group: "dosing",
    name: "Dosing container siphons through the idle pump",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => isDoser(device) && device.canSiphon),
    inject: (bench, part) => bench.set(part, "siphonLPerH", CONTAINER_SIPHON_L_PER_H),
    end: { act: "lift the hose of {part} out", needs: "unplug", minutes: 10, apply: mendAndRefill },
    sight: "nothing",
    rate: reported(0.02, "now and then, where containers stand higher than the outlet"),
    helps: ["a container that stands lower than the outlet of {part}", "an outlet in the air", "a small container"],
  },
  {
    mode: "mixed-double",
    group: "dosing",
    name: "Dosing solution was mixed twice as strong",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(isDoser),
    inject: (bench, part) => bench.set(part, "strength", 2),
    end: {
      act: "fill the container of {part} with the right mixture",
      needs: "refill",
      minutes: 20,
      apply: mendAndRefill,
    },
    sight: "nothing",
    rate: guess(0.05, "one mixing in two hundred"),
    helps: ["a test one day after every refill", "the recipe on the container", "no refill on the day of leaving"],
  },
  {
    mode: "mixed-weak",
    group: "dosing",
    name: "Dosing container was filled with almost plain water",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(isDoser),
    inject: (bench, part) => bench.set(part, "strength", 0.1),
    end: {
      act: "fill the container of {part} with the right mixture",
      needs: "refill",
      minutes: 20,
      apply: mendAndRefill,
    },
    sight: "nothing",
    rate: guess(0.05, "one mixing in two hundred"),
    helps: ["a test three days after every refill", "the recipe on the container"],
  },
  {
    mode: "swapped",
    group: "dosing",
    name: "Alkalinity and calcium containers are swapped",
    onset: "sudden",
    of: "device",
    parts: (site) => site.devices.filter((device) => partnerOf(site, device) !== undefined).map((device) => device.id),
    inject(bench, part) {
      // Each pump keeps its own volume a day, so what each solution gives scales with the other's volume.
      const own = deviceById(bench.site, part);
      const partner = partnerOf(bench.site, own);
      if (partner === undefined) return;
      bench.set(part, "strength", partner.amountPerDay / own.amountPerDay);
      bench.set(partner.id, "strength", own.amountPerDay / partner.amountPerDay);
    },
    end: {
      act: "put the containers of {part} and its partner back in their places",
      needs: "refill",
      minutes: 10,
      apply(bench, part) {
        const partner = partnerOf(bench.site, deviceById(bench.site, part));
        bench.release(part, "strength");
        if (partner !== undefined) bench.release(partner.id, "strength");
      },
    },
    sight: "nothing",
    rate: reported(0.03, "a common slip at refilling"),
    helps: ["caps of two shapes or colours", "equal volumes of both a day", "a test one day after every refill"],
  },
  {
    mode: "dose-repeated",
    group: "dosing",
    name: "Whole day's dose is given again at once after a restart",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => isDoser(device) && device.amountPerDay > 0),
    inject(bench, part) {
      const own = deviceById(bench.site, part);
      if (own.from !== null) bench.move(own.from, own.in, own.amountPerDay / 1000);
    },
    end: {
      act: "change some water",
      needs: "water-change",
      minutes: 45,
      apply: (bench, part) => changeWaterOf(bench, deviceById(bench.site, part).in, 0.2),
    },
    sight: "cloud",
    rate: guess(0.05, "seen when clocks change and schedules are replayed"),
    helps: ["a daily limit in the doser that survives a restart", "small doses of a weaker solution"],
  },
  {
    mode: "carbon-overdose",
    group: "dosing",
    name: "Carbon source is overdosed and the water turns milky",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) => isDoser(device) && device.amountPerDay > 0 && contentOf(site, device) === "carbon",
    ),
    inject(bench, part) {
      const own = deviceById(bench.site, part);
      const { holds } = bodyById(bench.site, own.from ?? own.in);
      const gramsPerML = holds.kind === "solution" ? holds.strengthPerML : 0;
      const grams = CARBON_DAYS * own.amountPerDay * gramsPerML;
      bench.pour(own.in, "carbon", (2 * grams) / ETHANOL_G_PER_MOL);
    },
    end: {
      act: "stop {part}, aerate hard and change water",
      needs: "water-change",
      minutes: 60,
      apply(bench, part) {
        const own = deviceById(bench.site, part);
        bench.set(part, "dead", 1);
        aerateBody(bench, own.in);
        changeWaterOf(bench, own.in, 0.3);
      },
    },
    sight: "cloud",
    rate: reported(0.03, "restarts at full strength after a pause"),
    helps: [
      "a slow return to the full dose after every pause",
      "an oxygen probe with a notice",
      "a socket that stops {part} when the skimmer stops",
    ],
  },
  {
    mode: "hand-dose-tenfold",
    group: "dosing",
    name: "Hand dose of alkalinity is taken far too large",
    onset: "sudden",
    of: "body",
    parts: watersWhere(
      (body, site) =>
        body.role === "display" && body.livestock.alkalinityDemandDKHPerDay > 0 && dosesByHand(site, body.system),
    ),
    inject(bench, part) {
      const { system } = bodyById(bench.site, part);
      bench.pour(part, "alkalinity", HAND_SLIP_DKH * DKH_TO_EQ_PER_L * systemWaterL(bench.site, system), 0.5);
    },
    end: {
      act: "change water",
      needs: "water-change",
      minutes: 60,
      apply: (bench, part) => changeWaterOf(bench, part, 0.3),
    },
    sight: "cloud",
    rate: guess(0.1, "a slip of the spoon or a factor of ten in ten years of dosing"),
    helps: ["a cup that holds one day's dose and no more", "a weaker solution"],
  },
  {
    mode: "lime-slurry",
    group: "dosing",
    name: "Undissolved lime is pumped over with the top-off",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device, site) => device.kind === "top-off" && contentOf(site, device) === "limewater"),
    inject(bench, part) {
      const own = deviceById(bench.site, part);
      const limeMol = (SLURRY_G_PER_L * systemWaterL(bench.site, own.system)) / LIME_G_PER_MOL;
      bench.pour(own.in, "alkalinity", 2 * limeMol, 0);
      bench.pour(own.in, "calcium", limeMol);
    },
    end: {
      act: "let the lime of {part} settle and change water",
      needs: "water-change",
      minutes: 45,
      apply: (bench, part) => changeWaterOf(bench, deviceById(bench.site, part).in, 0.2),
    },
    sight: "cloud",
    rate: reported(0.1, "reservoirs that are stirred or drawn from the bottom"),
    helps: ["an intake of {part} 5 cm above the sediment", "clear limewater only", "a pH limit that stops {part}"],
  },
  {
    mode: "shared-batch-wrong",
    group: "dosing",
    name: "One container feeds several dosers and was mixed twice as strong",
    onset: "sudden",
    of: "body",
    parts: bodiesWhere((body, site) => dosersFrom(site, body.id).length > 1),
    inject(bench, part) {
      for (const doser of dosersFrom(bench.site, part)) bench.set(doser.id, "strength", 2);
    },
    end: {
      act: "empty {part} and fill it with the right mixture",
      needs: "refill",
      minutes: 30,
      apply(bench, part) {
        for (const doser of dosersFrom(bench.site, part)) bench.release(doser.id, "strength");
        bench.refill(part);
      },
    },
    sight: "nothing",
    rate: guess(0.05, "one mixing in two hundred"),
    helps: ["a container for each system", "a test one day after every refill"],
  },
  {
    mode: "stops",
    group: "dosing",
    name: "Automatic water change stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("water-change"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "mend {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "pump heads of this size"),
    helps: ["a mark and a date on the reservoir", "water changes by hand meanwhile"],
  },
  {
    mode: "unbalanced",
    group: "dosing",
    name: "Water change takes out more than it brings",
    onset: "creeping",
    of: "device",
    parts: devicesWhere((device) => device.kind === "water-change" && device.amountPerDay > 0),
    // Two heads that have worn apart by a fifth: about 0.2 of salinity a week at usual changes.
    inject: (bench, part) => bench.set(part, "wasteLPerH", (0.2 * deviceById(bench.site, part).amountPerDay) / 24),
    end: { act: "put new hoses into both heads of {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: reported(0.5, "every pair of heads in time"),
    helps: ["a weekly salinity test with another instrument", "both hoses changed on the same day"],
  },
];
