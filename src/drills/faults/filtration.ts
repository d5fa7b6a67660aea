/** Skimmers, screens, bacteria and sterilisers. */
import { aerateBody, changeWaterOf, mend, unplug, unplugAndClose } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { devicesOf, devicesWhere, leakTrips, watersWhere, waysBack } from "./parts.ts";
import { generic, guess, reported } from "./rates.ts";

/** A foaming-over skimmer, L/h. */
const OVERFLOW_L_PER_H = 3;
const QUARTZ_LEAK_MA = 60;
/** Share of its opening that a full screen leaves free. */
const CLOGGED_SHARE = 0.05;

export const filtrationModes: readonly FaultMode[] = [
  {
    mode: "overflows",
    group: "filtration",
    name: "Skimmer foams over",
    onset: "sudden",
    of: "device",
    parts: devicesOf("skimmer"),
    inject: (bench, part) => bench.set(part, "wasteLPerH", OVERFLOW_L_PER_H),
    end: { act: "turn {part} off and let it settle", needs: "unplug", minutes: 10, apply: mend },
    sight: "level",
    rate: reported(0.5, "after feeding, additives or a changed level"),
    helps: [
      "a float in the waste can that cuts {part} off",
      "a limit on the day's top-off",
      "a salinity probe with a notice",
    ],
  },
  {
    mode: "stops",
    group: "filtration",
    name: "Skimmer stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("skimmer"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "free the pump of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "still",
    rate: generic(0.25, "between pumps and motors of industry, with foam besides"),
    helps: ["another source of oxygen at night", "a notice when {part} draws no power"],
  },
  {
    mode: "air-clogs",
    group: "filtration",
    name: "Skimmer's air intake closes with salt",
    onset: "creeping",
    of: "device",
    parts: devicesOf("skimmer"),
    // A venturi closes within a month where nobody rinses it.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.035),
    end: { act: "rinse the air intake of {part} with warm water", needs: "repair", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(2, "monthly where nobody rinses"),
    helps: ["warm water through the air intake of {part} every week", "a notice on pH at dawn"],
  },
  {
    mode: "screen-clogs",
    group: "filtration",
    name: "Screen, sock or fleece between two chambers clogs",
    onset: "sudden",
    of: "flow",
    parts: (site) =>
      waysBack(site)
        .filter((flow) => flow.by === null)
        .map((flow) => flow.id),
    inject: (bench, part) => bench.set(part, "drain", CLOGGED_SHARE),
    end: { act: "clean the screen of {part}", needs: "repair", minutes: 15, apply: mend },
    sight: "level",
    rate: reported(1, "weekly work that is left out once a year"),
    helps: ["a bypass over the screen", "a level sensor in both chambers"],
  },
  {
    mode: "bacteria-killed",
    group: "filtration",
    name: "Medicine or a long standstill kills the filter bacteria",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.rockKg > 0 || body.sandKg > 0),
    inject: (bench, part) => bench.set(part, "filter", 0.1),
    end: {
      act: "feed nothing, change water and add live bacteria",
      needs: "water-change",
      minutes: 60,
      apply(bench, part) {
        bench.set(part, "filter", 0.5);
        changeWaterOf(bench, part, 0.3);
      },
    },
    sight: "nothing",
    rate: guess(0.02, "treatments in the display, filters that stood still"),
    helps: ["treatment in a tank of its own", "flow through the rock first in every power cut"],
  },
  {
    mode: "tank-clouds",
    group: "filtration",
    name: "Bacterial bloom takes the oxygen",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.role === "display"),
    inject: (bench, part) => bench.set(part, "demand", 3),
    lastsMin: 2880,
    end: {
      act: "aerate hard",
      needs: "everything",
      minutes: 20,
      apply(bench, part) {
        bench.release(part);
        aerateBody(bench, part);
      },
    },
    sight: "cloud",
    rate: guess(0.05, "new media, a dead patch, cleaned-out sand"),
    helps: ["an air pump or skimmer with power to spare", "an oxygen or redox probe with a notice"],
  },
  {
    mode: "quartz-cracks",
    group: "filtration",
    name: "Steriliser's quartz cracks and leaks current",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) =>
        device.kind === "steriliser" && device.on !== null && leakTrips(site, device.on, QUARTZ_LEAK_MA),
    ),
    inject: (bench, part) => bench.set(part, "leakMA", QUARTZ_LEAK_MA),
    end: { act: "unplug {part} and close the breaker", needs: "reset", minutes: 20, apply: retireSteriliser },
    sight: "dark",
    rate: guess(0.02, "quartz and seals of this kind"),
    helps: ["{part} on another protected circuit than the pumps", "new seals with every new lamp"],
  },
  {
    mode: "socket-stays-on",
    group: "filtration",
    name: "Relay of the skimmer's socket welds shut",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.kind === "skimmer" && device.by !== null),
    inject: (bench, part) => bench.set(part, "socket", 1),
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "nothing",
    rate: generic(0.006, "one switched channel in fifty fails in a year, a third of these closed where motors start"),
    helps: ["a float in the waste can that stops {part} without the hub"],
  },
];

/** A tank does without its steriliser for a while. */
function retireSteriliser(bench: Parameters<FaultMode["inject"]>[0], part: string): void {
  unplugAndClose(bench, part);
  bench.set(part, "dead", 1);
}
