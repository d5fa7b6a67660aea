/** Drains, hoses, seams: water that goes where it should not. */
import { bodyById, deviceById, type Flow, type Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { bodiesWhere, devicesOf, flowsWhere, supplyOf, watersWhere, waysBack } from "./parts.ts";
import { guess, reported } from "./rates.ts";

function flowById(site: Site, id: string): Flow | undefined {
  return site.flows.find((flow) => flow.id === id);
}

/** Ways back behind a pump, whose drain can block. */
function drains(site: Site, fits: (flow: Flow) => boolean): readonly string[] {
  const pumped = waysBack(site).filter((flow) => flow.by !== null && fits(flow));
  return pumped.map((flow) => flow.id);
}

/** The pump of a flow and what its supply hangs on: what must stop before water can run back. */
function pumpAndSupply(site: Site, part: string): readonly string[] {
  const by = flowById(site, part)?.by ?? null;
  return by === null ? [] : [by, ...supplyOf(site, by)];
}

/** A seam that opens loses this share of the tank an hour at first. */
const SEAM_SHARE_PER_H = 0.1;
/** A cracked panel, likewise. */
const PANEL_SHARE_PER_H = 1;
const BULKHEAD_L_PER_H = 30;
/** Drops that dry beside the tank before anyone sees them: two litres a day. */
const WEEP_L_PER_H = 0.1;
const VESSEL_L_PER_H = 40;
const CHANGE_DRAIN_L_PER_H = 30;

export const plumbingModes: readonly FaultMode[] = [
  {
    mode: "drain-blocked",
    group: "plumbing",
    name: "Drain is blocked",
    onset: "sudden",
    of: "flow",
    parts: (site) => drains(site, () => true),
    inject: (bench, part) => bench.set(part, "drain", 0),
    end: { act: "stop the pump of {part} and clear the drain", needs: "repair", minutes: 20, apply: mend },
    sight: "water",
    rate: guess(0.02, "one unguarded drain in fifty a year; guarded ones a seventh of that"),
    helps: [
      "a high-level switch in the display that stops the return pump",
      "a spare drain of full size",
      "a guard over the overflow",
    ],
  },
  {
    mode: "drain-narrowed",
    group: "plumbing",
    name: "Drain is down to a third of its width",
    onset: "sudden",
    of: "flow",
    parts: (site) => drains(site, () => true),
    inject: (bench, part) => bench.set(part, "drain", 0.35),
    end: { act: "clear the drain of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "noise",
    rate: reported(0.1, "snails, weed and trapped air"),
    helps: [
      "a drain of three times the flow",
      "a spare drain of full size",
      "a high-level switch that stops the return pump",
    ],
  },
  {
    mode: "spare-drain-blocked",
    group: "plumbing",
    name: "Spare drain has grown shut",
    onset: "latent",
    of: "flow",
    parts: (site) => drains(site, (flow) => flow.spareDrainLPerH > 0),
    inject: (bench, part) => bench.set(part, "spareDrain", 0),
    end: { act: "clear the spare drain of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "pipes that never carry water and that nobody tries"),
    helps: [
      "a trial every month: half close the main drain and see the spare take over",
      "a high-level switch besides",
    ],
    triedEveryMonths: () => null,
    backs: (_site, part) => [part],
  },
  {
    mode: "siphon-break-plugged",
    group: "plumbing",
    name: "Siphon-break hole is grown over",
    onset: "latent",
    of: "flow",
    parts: flowsWhere((flow) => flow.by !== null && flow.backSiphonUnbrokenL > flow.backSiphonL),
    inject: (bench, part) => bench.set(part, "siphonBreak", 1),
    end: { act: "clear the siphon-break hole of {part}", needs: "repair", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.15, "small holes under lights, for each half year uncleaned"),
    helps: [
      "a nozzle that lies so shallow that it cannot siphon much",
      "two holes",
      "free room in the sump for all of it",
    ],
    triedEveryMonths: () => null,
    backs: pumpAndSupply,
  },
  {
    mode: "check-valve-open",
    group: "plumbing",
    name: "Check valve does not hold",
    onset: "latent",
    of: "flow",
    parts: flowsWhere((flow) => flow.by !== null && flow.checkValve),
    inject: (bench, part) => bench.set(part, "checkValve", 1),
    end: { act: "clean the check valve of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: guess(0.05, "one in twenty a year where nobody cleans it"),
    helps: [
      "free room in the sump for all that runs back, as if there were no valve",
      "a switch-off trial every three months",
    ],
    triedEveryMonths: () => null,
    backs: pumpAndSupply,
  },
  {
    mode: "hose-off",
    group: "plumbing",
    name: "Return hose slips off",
    onset: "sudden",
    of: "flow",
    parts: flowsWhere((flow) => flow.by !== null),
    inject: (bench, part) => bench.set(part, "hoseOff", 1),
    end: { act: "stop the pump of {part} and fix the hose", needs: "repair", minutes: 20, apply: mend },
    sight: "water",
    rate: guess(0.006, "two joints of three in a thousand a year; rusting clamps far more"),
    helps: [
      "a leak sensor that stops the return pump",
      "a sump whose free water does no harm on the floor",
      "plastic clamps or glued unions",
    ],
  },
  {
    mode: "union-sprays",
    group: "plumbing",
    name: "Union of the return sprays",
    onset: "sudden",
    of: "flow",
    parts: flowsWhere((flow) => flow.by !== null),
    inject: (bench, part) => bench.set(part, "hoseOff", 0.01),
    end: { act: "tighten the union of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "water",
    rate: guess(0.02, "seals that age"),
    helps: ["a leak sensor with a notice", "unions above the sump, where drops fall back into it"],
  },
  {
    mode: "seam-opens",
    group: "plumbing",
    name: "Seam gives way",
    onset: "sudden",
    of: "body",
    parts: watersWhere(() => true),
    inject(bench, part) {
      bench.set(part, "leakLPerH", SEAM_SHARE_PER_H * bodyById(bench.site, part).volumeL);
      bench.set(part, "leakStopsAt", 0.5);
    },
    end: { act: "save the animals from {part} into tubs and seal it", needs: "repair", minutes: 60, apply: mend },
    sight: "water",
    rate: guess(0.002, "one tank in a thousand a year when young, seven at fifteen years"),
    helps: [
      "a leak sensor with a notice",
      "tubs and prepared salt water at hand",
      "a yearly look at the seams of {part}",
    ],
  },
  {
    mode: "panel-cracks",
    group: "plumbing",
    name: "Panel cracks",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.role !== "sump"),
    inject(bench, part) {
      bench.set(part, "leakLPerH", PANEL_SHARE_PER_H * bodyById(bench.site, part).volumeL);
      bench.set(part, "leakStopsAt", 0.2);
    },
    end: { act: "save the animals from {part} into tubs", needs: "repair", minutes: 60, apply: mend },
    sight: "water",
    rate: guess(0.0005, "knocks, tension, hot equipment at the glass"),
    helps: ["a floor drain", "tubs and prepared salt water at hand", "a leak sensor with a notice"],
  },
  {
    mode: "weeps",
    group: "plumbing",
    name: "Fitting weeps, and the top-off hides it",
    onset: "creeping",
    of: "body",
    parts: watersWhere(() => true),
    inject: (bench, part) => bench.set(part, "leakLPerH", WEEP_L_PER_H),
    end: { act: "tighten or replace the fitting of {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: reported(0.2, "very common, seen as salt crust"),
    helps: ["a leak sensor under {part}", "a notice when the day's top-off grows by a fifth", "a salinity probe"],
  },
  {
    mode: "bulkhead-fails",
    group: "plumbing",
    name: "Bulkhead at the bottom of the sump fails",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.role === "sump" || body.role === "refugium"),
    inject: (bench, part) => bench.set(part, "leakLPerH", BULKHEAD_L_PER_H),
    end: { act: "catch the water of {part} and replace the seal", needs: "repair", minutes: 45, apply: mend },
    sight: "water",
    rate: guess(0.005, "seals under water"),
    helps: [
      "no holes in the bottom of {part}",
      "a low-level switch that stops pump and heater",
      "a leak sensor with a notice",
    ],
  },
  {
    mode: "vessel-splits",
    group: "plumbing",
    name: "Reactor vessel splits and empties the chamber it stands on",
    onset: "sudden",
    of: "device",
    parts: devicesOf("calcium-reactor"),
    inject: (bench, part) => bench.set(deviceById(bench.site, part).in, "leakLPerH", VESSEL_L_PER_H),
    end: {
      act: "switch {part} off and shut its hoses",
      needs: "unplug",
      minutes: 10,
      apply(bench, part) {
        bench.release(deviceById(bench.site, part).in, "leakLPerH");
        bench.set(part, "dead", 1);
      },
    },
    sight: "water",
    rate: guess(0.005, "plastics that tire under pressure"),
    helps: ["{part} inside the sump or above a tray that drains into it", "a leak sensor that stops {part}"],
  },
  {
    mode: "drain-stays-open",
    group: "plumbing",
    name: "Drain of the automatic water change stays open",
    onset: "sudden",
    of: "device",
    parts: devicesOf("water-change"),
    inject: (bench, part) => bench.set(part, "wasteLPerH", CHANGE_DRAIN_L_PER_H),
    end: { act: "shut the drain of {part} by hand", needs: "unplug", minutes: 10, apply: mend },
    sight: "level",
    rate: guess(0.02, "valves of this kind, three in ten of whose failures are open"),
    helps: ["a second valve in series", "a low-level switch that shuts it", "a salinity probe with a notice"],
  },
  {
    mode: "splits",
    group: "plumbing",
    name: "Reservoir splits and runs out",
    onset: "sudden",
    of: "body",
    parts: bodiesWhere((body) => body.role === "reservoir"),
    inject(bench, part) {
      const body = bodyById(bench.site, part);
      bench.spill(part, 0.9 * body.fill * body.volumeL);
    },
    end: {
      act: "mop, and put another vessel in place of {part}",
      needs: "mop",
      minutes: 60,
      apply: (bench, part) => bench.refill(part),
    },
    sight: "water",
    rate: guess(0.003, "thin plastics that carry weight for years"),
    helps: ["a tray under {part} that holds all of it", "a leak sensor with a notice", "a smaller reservoir"],
  },
];
