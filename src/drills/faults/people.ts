/** Slips of people, messages that are not read, and guards left switched off. */
import { bodyById, type Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import {
  devicesWhere,
  firstOfEachKind,
  flowsWhere,
  guardedByRules,
  isGuard,
  switchedDevices,
  urgentParts,
  watersWhere,
} from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** What people unplug to work at the tank, and forget. */
const OFTEN_UNPLUGGED = ["heater", "return-pump", "skimmer", "top-off", "doser", "light"];
/** A service hose over the rim, L/h. */
const HOSE_L_PER_H = 250;

/** Share of the free room in a sump that is filled by mistake. */
const OVERFILL_SHARE = 0.9;

function rulesOf(site: Site, hub: string) {
  return site.rules.filter((rule) => rule.hub === hub && rule.notice !== null);
}

/** What nobody meets or tells of while a rule is off. */
function missedWithout(site: Site, part: string): readonly string[] {
  const rules = site.rules.filter((rule) => rule.id === part);
  return firstOfEachKind(site, guardedByRules(site, rules));
}

export const peopleModes: readonly FaultMode[] = [
  {
    mode: "left-unplugged",
    group: "people",
    name: "Device is left unplugged after service",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => OFTEN_UNPLUGGED.includes(device.kind) && device.on !== null),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "plug {part} in again", needs: "unplug", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.12, "one act of service in a hundred, a dozen a year"),
    helps: ["a written list for the end of every service", "a notice when {part} draws no power", "plugs with names"],
  },
  {
    mode: "plugged-past-hub",
    group: "people",
    name: "Device is plugged past its hub and runs all the time",
    onset: "sudden",
    of: "device",
    parts: switchedDevices("heater", "chiller", "fan", "top-off", "refill-valve", "light", "doser"),
    inject: (bench, part) => bench.set(part, "direct", 1),
    end: {
      act: "put the plug of {part} back where it belongs",
      needs: "unplug",
      minutes: 5,
      apply: mend,
    },
    sight: "nothing",
    rate: guess(0.02, "look-alike plugs"),
    helps: [
      "plugs with names",
      "a thermostat, float or timer in {part} itself",
      "a notice when it draws power while it should rest",
    ],
  },
  {
    mode: "valve-left-shut",
    group: "people",
    name: "Valve of the return is left shut after service",
    onset: "sudden",
    of: "flow",
    parts: flowsWhere((flow) => flow.by !== null),
    inject: (bench, part) => bench.set(part, "shut", 1),
    end: { act: "open the valve of {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "still",
    rate: guess(0.05, "one act of service in a hundred"),
    helps: ["a written list for the end of every service", "a sensor of flow with a notice"],
  },
  {
    mode: "hose-left-running",
    group: "people",
    name: "Service hose is left running out of the tank",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.role === "display"),
    inject(bench, part) {
      bench.set(part, "leakLPerH", HOSE_L_PER_H);
      bench.set(part, "leakStopsAt", 0.6);
    },
    end: { act: "lift the hose out of {part}", needs: "unplug", minutes: 5, apply: mend },
    sight: "water",
    rate: guess(0.05, "one water change in two hundred"),
    helps: [
      "a hose that ends near the surface",
      "a timer in the pocket at every water change",
      "a leak sensor with a notice",
    ],
  },
  {
    mode: "filled-to-the-rim",
    group: "people",
    name: "Sump is filled to the rim with fresh water by hand",
    onset: "sudden",
    of: "body",
    parts: watersWhere((body) => body.role === "sump"),
    inject(bench, part) {
      const body = bodyById(bench.site, part);
      bench.addFresh(part, OVERFILL_SHARE * Math.max(0, body.brimL - body.volumeL));
    },
    end: {
      act: "bail out {part} and put salt water back",
      needs: "water-change",
      minutes: 30,
      apply(bench, part) {
        bench.changeWater(bodyById(bench.site, part).system, 0.1);
      },
    },
    sight: "level",
    rate: reported(0.1, "a common slip of helpers and of keepers in a hurry"),
    helps: ["a line on {part} that says how high with pumps running", "a jug of one day's water for the helper"],
  },
  {
    mode: "notices-muted",
    group: "people",
    name: "Notices are left muted after service",
    onset: "latent",
    of: "hub",
    parts: (site) => site.hubs.filter((hub) => rulesOf(site, hub.id).length > 0).map((hub) => hub.id),
    inject: (bench, part) => bench.set(part, "muted", 1),
    end: { act: "let {part} speak again", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "one act of service in a hundred"),
    helps: ["silence that ends by itself after two hours", "a test notice every week that someone expects"],
    triedEveryMonths: () => null,
    backs: (site, part) => guardedByRules(site, rulesOf(site, part)),
  },
  {
    mode: "left-off",
    group: "people",
    name: "Guarding rule is left switched off after service",
    onset: "latent",
    of: "rule",
    parts: (site) => site.rules.filter(isGuard).map((rule) => rule.id),
    inject: (bench, part) => bench.set(part, "off", 1),
    end: { act: "switch {part} on again", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.03, "one act of service in a hundred, for the rules that it silences"),
    helps: ["rules that come back by themselves after two hours", "a trial of every guarding rule twice a year"],
    triedEveryMonths: () => null,
    backs: missedWithout,
  },
  {
    mode: "left-off",
    group: "people",
    name: "Rule that runs the place is left switched off",
    onset: "sudden",
    of: "rule",
    parts: (site) => site.rules.filter((rule) => !isGuard(rule)).map((rule) => rule.id),
    inject: (bench, part) => bench.set(part, "off", 1),
    end: { act: "switch {part} on again", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(0.03, "one act of service in a hundred, for the rules that it stops"),
    helps: ["rules that come back by themselves after two hours", "a device with a thermostat or float of its own"],
  },
  {
    mode: "cannot-be-reached",
    group: "people",
    name: "Person's phone is silent, or the number is an old one",
    onset: "latent",
    of: "person",
    parts: (site) =>
      site.people.filter((person) => site.ladder.some((step) => step.person === person.id)).map((person) => person.id),
    inject: (bench, part) => bench.set(part, "unreachable", 1),
    end: { act: "reach {part} some other way", needs: "everything", minutes: 15, apply: mend },
    sight: "nothing",
    rate: guess(0.3, "one message in seven is not seen within an hour by day, three in five by night"),
    helps: [
      "a call that rings through silence",
      "a second person on the ladder after ten minutes",
      "a test notice every month",
    ],
    triedEveryMonths: () => null,
    backs: urgentParts,
  },
  {
    mode: "does-not-know-how",
    group: "people",
    name: "Helper does not know what to do",
    onset: "latent",
    of: "person",
    parts: (site) =>
      site.people
        .filter((person) => !person.can.includes("everything") && person.can.some((skill) => skill !== "call keeper"))
        .map((person) => person.id),
    inject: (bench, part) => bench.set(part, "unsure", 1),
    end: { act: "go through the sheet with {part}", needs: "everything", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.2, "one helper in five does the wrong thing or half of it by phone"),
    helps: ["a page at the tank with pictures of what is normal", "a drill with {part} once a year"],
    triedEveryMonths: () => null,
    backs: urgentParts,
  },
];
