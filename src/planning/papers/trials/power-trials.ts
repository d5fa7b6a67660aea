/** Trials of what carries on without the mains, and of what cuts it: batteries, generators, leakage breakers. */
import { listWords, spanWords } from "../../../rules/index.ts";
import type { Battery, Circuit, Site } from "../../../site/index.ts";
import { CAUTION } from "../cautions.ts";
import { batteryLine, circuitOf } from "../loads.ts";
import type { Trial } from "../types.ts";
import { roomSteps } from "./plugs.ts";
import { QUARTER_MONTHS } from "./quarter.ts";

/** A trial run of a battery: half of its time, and never more than this, s. */
const LONGEST_RUN_S = 1800;
const SHORTEST_RUN_S = 300;
/** What takes over by itself has done so after this, s. */
const TAKES_OVER_S = 10;
const GENERATOR_RUN_S = 900;

export function powerTrials(site: Site): readonly Trial[] {
  return [
    ...site.batteries.map((battery) =>
      battery.kind === "generator" ? generatorTrial(site, battery) : batteryTrial(site, battery),
    ),
    ...site.circuits.filter(({ tripsOnLeakMA }) => tripsOnLeakMA !== null).map((circuit) => leakTrial(site, circuit)),
  ];
}

function batteryTrial(site: Site, battery: Battery): Trial {
  const { feeds, lastsH } = batteryLine(site, battery);
  const halfS = lastsH === null ? LONGEST_RUN_S : (lastsH * 3600) / 2;
  const runS = Math.max(SHORTEST_RUN_S, Math.floor(Math.min(LONGEST_RUN_S, halfS) / 60) * 60);
  const ownPlugs = site.devices.filter(
    ({ id, on }) => feeds.includes(id) && site.circuits.some((one) => one.id === on),
  );
  const fed = listWords(feeds) || "what it feeds";
  const run = feeds.length === 1 ? "runs" : "run";
  return {
    id: `${battery.id}.carries`,
    part: battery.id,
    title: `Battery ${battery.id} carries ${fed}`,
    steps: [
      battery.on === null
        ? `By day, with someone beside it: switch ${fed} over to ${battery.id}.`
        : `By day, with someone beside it: pull the plug of ${battery.id} out of ${battery.on}.`,
      ...(battery.on !== null && ownPlugs.length > 0
        ? [
            `Where ${listWords(ownPlugs.map(({ id }) => id))} ${ownPlugs.length === 1 ? "has" : "have"} a plug in ${listWords([...new Set(ownPlugs.map(({ on }) => on ?? ""))])} too, pull it as well.`,
          ]
        : []),
      ...(battery.startsItself ? [] : [`Switch ${battery.id} on by hand, as it would be in need.`]),
      `Leave it so for ${spanWords(runS)}.`,
    ],
    must: [
      battery.startsItself
        ? `${fed} ${run} on without a hand, or ${feeds.length === 1 ? "starts by itself" : "start by themselves"}.`
        : `${fed} ${run}.`,
      `After ${spanWords(runS)} ${feeds.length === 1 ? "it still runs" : "they still run"}${lastsH === null ? "" : `; by its figures it lasts about ${spanWords(lastsH * 3600)}`}.`,
    ],
    withinS: battery.startsItself ? TAKES_OVER_S : null,
    putBack: `Put every plug back, see that ${battery.id} charges and that all that stood runs again.`,
    caution: CAUTION.plug,
    everyMonths: QUARTER_MONTHS,
    renews: { of: "battery", key: "lastTriedMonths" },
  };
}

function generatorTrial(site: Site, battery: Battery): Trial {
  const { feeds } = batteryLine(site, battery);
  return {
    id: `${battery.id}.carries`,
    part: battery.id,
    title: `Generator ${battery.id} starts and carries its load`,
    steps: [
      `Start ${battery.id} in the open, as it would be in need, and note the fuel.`,
      `Plug a load like that of ${listWords(feeds) || "what it feeds"} into its own outlet for ${spanWords(GENERATOR_RUN_S)}.`,
    ],
    must: [
      `It starts at the first or second try and runs evenly for ${spanWords(GENERATOR_RUN_S)}.`,
      "There is fuel for as long as its figures say.",
    ],
    withinS: null,
    putBack: "Let it cool, fill up with fresh fuel, and put it back where it stands in need.",
    caution: CAUTION.generator,
    everyMonths: QUARTER_MONTHS,
    renews: { of: "battery", key: "lastTriedMonths" },
  };
}

/** The site file keeps no age for a breaker: its result stands in the journal alone. */
function leakTrial(site: Site, circuit: Circuit): Trial {
  const on = [...site.devices, ...site.hubs, ...site.links].filter((part) => hangsUnder(site, part.on, circuit.id));
  const stands = site.devices.filter(({ id }) => on.some((part) => part.id === id));
  return {
    id: `${circuit.id}.leak-trip`,
    part: circuit.id,
    title: `Leakage breaker of ${circuit.id} opens`,
    steps: [
      ...roomSteps(
        site,
        stands.map(({ id }) => id),
      ),
      `By day, with time to stay: press the test button of the leakage breaker of ${circuit.id}, once.`,
      "Look at what went still and what went on.",
    ],
    must: ["It opens at once.", "What a battery carries goes on."],
    withinS: null,
    putBack: `Close it again, and see that each of these runs as before: ${listWords(stands.map(({ id }) => id)) || "all that hangs from it"}.`,
    caution: CAUTION.breaker,
    everyMonths: QUARTER_MONTHS,
    renews: null,
  };
}

function hangsUnder(site: Site, on: string | null, above: string): boolean {
  const seen = new Set<string>();
  for (let at = circuitOf(site, on); at !== null && !seen.has(at); ) {
    if (at === above) return true;
    seen.add(at);
    const here: string = at;
    at = site.circuits.find(({ id }) => id === here)?.on ?? null;
  }
  return false;
}
