/** Doses of the wrong thing, of the wrong strength, or by a hand that slips. */
import { bodyById, type Device, deviceById, type Site } from "../../site/index.ts";
import { DKH_TO_EQ_PER_L, systemWaterL } from "../../twin/index.ts";
import { aerateBody, changeWaterOf, mendAndRefill } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { bodiesWhere, devicesWhere, watersWhere } from "./parts.ts";
import { guess, reported } from "./rates.ts";

export const isDoser = (device: Device) => device.kind === "doser" && device.from !== null;

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

export const mixtureModes: readonly FaultMode[] = [
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
];
