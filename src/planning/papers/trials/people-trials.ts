/** Trials of the ways by which something is told, and of those who are told. */
import { READ_MIN } from "../../../drills/index.ts";
import { listWords, spanWords } from "../../../rules/index.ts";
import type { Hub, Person, Site } from "../../../site/index.ts";
import { CAUTION } from "../cautions.ts";
import type { Trial } from "../types.ts";
import { plugWords, roomSteps } from "./plugs.ts";
import { QUARTER_MONTHS } from "./quarter.ts";

/** A trial notice has left and come in after this where every link works, s. */
const TRAVELS_S = 300;

const ofHub = { of: "hub", key: "testedMonths" } as const;
const ofPerson = { of: "person", key: "testedMonths" } as const;

export function peopleTrials(site: Site): readonly Trial[] {
  return [
    ...site.hubs.flatMap((hub) => hubTrials(site, hub)),
    ...site.people.flatMap((person) => personTrials(site, person)),
    ...silenceTrial(site),
  ];
}

function hubTrials(site: Site, hub: Hub): readonly Trial[] {
  const switched = site.devices.filter(({ by }) => by === hub.id);
  return [
    ...(switched.length === 0 ? [] : [fallsTrial(site, hub)]),
    ...hub.sendsOver.map((link) => wayOutTrial(site, hub, link)),
    ...(hub.siren ? [sirenTrial(site, hub)] : []),
  ];
}

function fallsTrial(site: Site, hub: Hub): Trial {
  const falling = (to: "on" | "off" | "as it was") =>
    site.devices.filter(({ by, withoutHub }) => by === hub.id && withoutHub === to).map(plugWords);
  const lines = [
    ["on", "These go on, or stay on"],
    ["off", "These go off, or stay off"],
    ["as it was", "These stay as they were"],
  ] as const;
  return {
    id: `${hub.id}.falls`,
    part: hub.id,
    title: `Sockets of ${hub.id} fall to what is written`,
    steps: [
      ...roomSteps(
        site,
        site.devices.filter(({ by, withoutHub }) => by === hub.id && withoutHub === "off").map(({ id }) => id),
      ),
      `Stay beside it: pull the plug of ${hub.id}${hub.on === null ? "" : ` out of ${hub.on}`} for two minutes, and nothing else.`,
    ],
    must: lines.flatMap(([to, words]) => {
      const ids = falling(to);
      return ids.length === 0 ? [] : [`${words}: ${listWords(ids)}.`];
    }),
    withinS: null,
    putBack: `Plug ${hub.id} in, wait until it reads its sensors, and see that its rules switch again.`,
    caution: CAUTION.plug,
    everyMonths: QUARTER_MONTHS,
    renews: ofHub,
  };
}

function wayOutTrial(site: Site, hub: Hub, link: string): Trial {
  const needed = neededBy(site, link);
  const others = hub.sendsOver.filter((other) => other !== link && !needed.includes(other));
  return {
    id: `${hub.id}.over-${link}`,
    part: hub.id,
    title: `A notice of ${hub.id} leaves over ${link}`,
    steps: [
      ...(others.length === 0
        ? []
        : [`Cut the other ways out for the moment: ${listWords(others)}. Leave the power of ${hub.id} on.`]),
      `Let ${hub.id} send a trial notice.`,
    ],
    must: [`The notice arrives${site.ladder.length === 0 ? "" : ` with ${site.ladder[0].person}`}.`],
    withinS: TRAVELS_S,
    putBack:
      others.length === 0 ? "Nothing was moved." : `Put ${listWords(others)} back and see that each is up again.`,
    caution: null,
    everyMonths: QUARTER_MONTHS,
    renews: ofHub,
  };
}

/** The links that a link needs, with itself. */
function neededBy(site: Site, link: string): readonly string[] {
  const seen: string[] = [];
  for (let at: string | null = link; at !== null && !seen.includes(at); ) {
    seen.push(at);
    const here: string = at;
    at = site.links.find(({ id }) => id === here)?.via ?? null;
  }
  return seen;
}

function sirenTrial(site: Site, hub: Hub): Trial {
  const hearers = site.people.filter(({ reachedBy }) => reachedBy.includes("siren")).map(({ id }) => id);
  return {
    id: `${hub.id}.siren`,
    part: hub.id,
    title: `Siren of ${hub.id} is heard`,
    steps: [
      `Tell those in the building, and let ${hub.id} sound its siren.`,
      hearers.length === 0
        ? "Go where people usually are and listen."
        : `Ask ${listWords(hearers)} at their usual place.`,
    ],
    must: ["It is heard there with the doors closed."],
    withinS: null,
    putBack: "Silence it, and see that it is armed again.",
    caution: null,
    everyMonths: QUARTER_MONTHS,
    renews: ofHub,
  };
}

function personTrials(site: Site, person: Person): readonly Trial[] {
  const isTold =
    site.ladder.some((step) => step.person === person.id) || (site.silenceWatch?.tells.includes(person.id) ?? false);
  const ways = person.reachedBy;
  const acts = person.can.filter((skill) => skill !== "call keeper" && skill !== "everything");
  const trials: Trial[] = [];
  if (isTold && ways.length > 0) {
    const slowestMin = Math.max(...ways.map((way) => READ_MIN[way]));
    trials.push({
      id: `${person.id}.answers`,
      part: person.id,
      title: `${person.id} is reached and answers`,
      steps: [
        `Without saying so first, at an hour at which they neither sleep nor work, send ${person.id} a trial message by each of their ways: ${listWords(ways)}.`,
      ],
      must: [`${person.id} answers each, and says where the sheet is.`],
      withinS: slowestMin * 60,
      putBack: "Write down a number that has changed.",
      caution: null,
      everyMonths: QUARTER_MONTHS,
      renews: ofPerson,
    });
  }
  if (!person.can.includes("everything") && acts.length > 0) {
    trials.push({
      id: `${person.id}.knows-how`,
      part: person.id,
      title: `${person.id} knows what to do`,
      steps: [
        `Go through the key-holder\u2019s sheet with ${person.id} in front of the tanks.`,
        `Let them show each plug, vessel and breaker that they may have to touch (${listWords(acts)}), without touching it.`,
      ],
      must: [`${person.id} finds each without help.`],
      withinS: null,
      putBack: "Put tags on what they had to look for.",
      caution: CAUTION.plug,
      everyMonths: QUARTER_MONTHS,
      renews: ofPerson,
    });
  }
  return trials;
}

function silenceTrial(site: Site): readonly Trial[] {
  const watch = site.silenceWatch;
  if (watch === null || site.hubs.length === 0) return [];
  const people = site.people.filter(({ id }) => watch.tells.includes(id));
  const readMin = Math.max(0, ...people.map(({ reachedBy }) => Math.min(...reachedBy.map((way) => READ_MIN[way]))));
  const hub = site.hubs[0];
  const rest = site.hubs.length === 1 ? "" : " Do the same with each other hub in turn.";
  return [
    {
      id: "*.silence",
      part: "*",
      title: "The watch outside the house hears silence",
      steps: [
        `Cut every way out of ${hub.id}${hub.sendsOver.length === 0 ? "" : ` (${listWords(hub.sendsOver)})`} at its lead or aerial, and leave the power of ${hub.id} on, so that its rules go on.`,
        `Wait ${spanWords(watch.afterMin * 60)}.${rest}`,
      ],
      must: [`${listWords(watch.tells)} ${watch.tells.length === 1 ? "is" : "are"} told that the place is silent.`],
      withinS: (watch.afterMin + (Number.isFinite(readMin) ? readMin : 0)) * 60,
      putBack: "Put every lead back, and see that the watch hears the place again.",
      caution: null,
      everyMonths: QUARTER_MONTHS,
      renews: { of: "silence watch", key: "testedMonths" },
    },
  ];
}
