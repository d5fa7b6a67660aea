/** Hubs, links and services: what decides, and what carries the news. */

import type { Hub, Link, Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { quarterly } from "./parts.ts";
import { guess, reported } from "./rates.ts";

function hubs(fits: (hub: Hub) => boolean): FaultMode["parts"] {
  return (site) => site.hubs.filter(fits).map((hub) => hub.id);
}

function links(fits: (link: Link) => boolean): FaultMode["parts"] {
  return (site) => site.links.filter(fits).map((link) => link.id);
}

const down: FaultMode["inject"] = (bench, part) => bench.set(part, "down", 1);

/** Ways out, each of which a hub uses. */
function usedLinks(site: Site): ReadonlySet<string> {
  const used = new Set<string>();
  const follow = (id: string | null): void => {
    if (id === null || used.has(id)) return;
    used.add(id);
    follow(site.links.find((link) => link.id === id)?.via ?? null);
  };
  for (const hub of site.hubs) for (const link of hub.sendsOver) follow(link);
  return used;
}

function usedLinksOf(kind: Link["kind"]): FaultMode["parts"] {
  return (site) => links((link) => link.kind === kind && usedLinks(site).has(link.id))(site);
}

const LOCAL_LIMITS = "thermostats and floats that need no hub";
const SILENCE = "a watch outside the house that tells someone when the hub falls silent";

export const networkModes: readonly FaultMode[] = [
  {
    mode: "hangs",
    group: "network",
    name: "Hub hangs and its sockets stay as they were",
    onset: "sudden",
    of: "hub",
    parts: hubs((hub) => !hub.watchdog),
    inject: (bench, part) => bench.set(part, "hung", 1),
    end: { act: "restart {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "display",
    rate: guess(1, "small controllers without a watchdog, once a year"),
    helps: ["a watchdog that restarts {part}", SILENCE, LOCAL_LIMITS],
  },
  {
    mode: "hangs",
    group: "network",
    name: "Hub hangs in spite of its watchdog",
    onset: "sudden",
    of: "hub",
    parts: hubs((hub) => hub.watchdog),
    inject: (bench, part) => bench.set(part, "hung", 1),
    end: { act: "restart {part}", needs: "reset", minutes: 5, apply: mend },
    sight: "display",
    rate: guess(0.05, "small controllers whose watchdog does not help, once in twenty years"),
    helps: [SILENCE, LOCAL_LIMITS],
  },
  {
    mode: "dies",
    group: "network",
    name: "Hub dies",
    onset: "sudden",
    of: "hub",
    parts: hubs(() => true),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "replace {part} or run the place by hand", needs: "repair", minutes: 60, apply: mend },
    sight: "display",
    rate: guess(0.04, "storage, supply or moisture, one in twenty-five a year"),
    helps: ["sockets that fall to a harmless state", SILENCE, LOCAL_LIMITS],
  },
  {
    mode: "loses-its-rules",
    group: "network",
    name: "Hub restarts with its rules lost",
    onset: "sudden",
    of: "hub",
    parts: hubs(() => true),
    inject: (bench, part) => bench.set(part, "blank", 1),
    end: { act: "load the rules of {part} again", needs: "reset", minutes: 20, apply: mend },
    sight: "nothing",
    rate: reported(0.05, "after updates and power cuts"),
    helps: [
      "no updates in the week before leaving",
      "a check that compares the rules after every restart",
      LOCAL_LIMITS,
    ],
  },
  {
    mode: "clock-steps",
    group: "network",
    name: "Hub's clock is an hour off after the change of season",
    onset: "sudden",
    of: "hub",
    parts: hubs(() => true),
    inject: (bench, part) => bench.set(part, "clockS", 3600),
    end: { act: "set the clock of {part}", needs: "reset", minutes: 10, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "two changes a year, one in twenty of which is missed"),
    helps: ["a clock set over the network", "rules that do not hang on the hour"],
  },
  {
    mode: "clock-lost",
    group: "network",
    name: "Hub's clock is twelve hours off after a power cut",
    onset: "sudden",
    of: "hub",
    parts: hubs(() => true),
    inject: (bench, part) => bench.set(part, "clockS", 43_200),
    end: { act: "set the clock of {part}", needs: "reset", minutes: 10, apply: mend },
    sight: "display",
    rate: guess(0.05, "flat clock cells"),
    helps: ["a clock set over the network", "a new clock cell every three years"],
  },
  {
    mode: "hangs",
    group: "network",
    name: "Router hangs",
    onset: "sudden",
    of: "link",
    parts: usedLinksOf("local"),
    inject: down,
    end: { act: "pull the plug of {part} and put it back", needs: "reset", minutes: 5, apply: mend },
    sight: "nothing",
    rate: guess(2, "one to four a year"),
    helps: ["a socket timer that restarts {part} every night", "a mobile link besides", SILENCE],
  },
  {
    mode: "dies",
    group: "network",
    name: "Router dies",
    onset: "sudden",
    of: "link",
    parts: usedLinksOf("local"),
    inject: down,
    end: { act: "put another router in place of {part}", needs: "repair", minutes: 60, apply: mend },
    sight: "nothing",
    rate: guess(0.06, "one in sixteen a year"),
    helps: ["a mobile link besides", SILENCE],
  },
  {
    mode: "line-down-4-h",
    group: "network",
    name: "Internet line is down for four hours",
    onset: "sudden",
    of: "link",
    parts: usedLinksOf("internet"),
    inject: down,
    lastsMin: 240,
    end: { act: "restart what is in the house and wait", needs: "reset", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(0.4, "polls of households: three hours and more once in two or three years"),
    helps: ["a mobile link besides", "a siren in the house", SILENCE],
  },
  {
    mode: "line-down-3-d",
    group: "network",
    name: "Internet line is down for three days",
    onset: "sudden",
    of: "link",
    parts: usedLinksOf("internet"),
    inject: down,
    lastsMin: 4320,
    end: { act: "set up another way out for notices", needs: "everything", minutes: 30, apply: mend },
    sight: "nothing",
    rate: reported(0.05, "polls of households: over two days in bad years"),
    helps: ["a mobile link besides", SILENCE],
  },
  {
    mode: "mast-down",
    group: "network",
    name: "Mobile network is down for ten hours",
    onset: "sudden",
    of: "link",
    parts: usedLinksOf("mobile"),
    inject: down,
    lastsMin: 600,
    end: { act: "set up another way out for notices", needs: "everything", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.1, "once in ten years for half a day"),
    helps: ["a line besides", "a siren in the house", SILENCE],
  },
  {
    mode: "service-down",
    group: "network",
    name: "Message service is down for four hours",
    onset: "sudden",
    of: "system",
    parts: (site) => (site.hubs.some((hub) => hub.sendsOver.length > 0) ? ["*"] : []),
    inject: (bench, part) => bench.set(part, "serviceDown", 1),
    lastsMin: 240,
    end: { act: "wait, and look in more often", needs: "everything", minutes: 15, apply: mend },
    sight: "nothing",
    rate: guess(1, "some hours a year"),
    helps: ["a siren in the house", "two ways of messages that do not share a service"],
  },
  {
    mode: "silence-watch-dead",
    group: "network",
    name: "Watch outside the house no longer hears silence",
    onset: "latent",
    of: "system",
    parts: (site) => (site.silenceWatch === null ? [] : ["*"]),
    inject: (bench, part) => bench.set(part, "silenceWatchDead", 1),
    end: { act: "set the watch outside up again and try it", needs: "reset", minutes: 15, apply: mend },
    sight: "nothing",
    rate: reported(0.25, "household alarms that nobody tries are dead in a quarter of homes"),
    helps: ["a trial every three months: pull the plug of the hub and wait for the notice"],
    triedEveryMonths: (site) => quarterly(site.silenceWatch?.testedMonths),
    backs: (site) => [...site.hubs.map((hub) => hub.id), ...usedLinks(site)],
  },
];
