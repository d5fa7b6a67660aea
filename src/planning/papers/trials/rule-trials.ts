/** A trial for each rule: its sensors are made to say what it waits for, and what it does is watched. */
import {
  conditionWords,
  hoursWords,
  listWords,
  RATE_WINDOW_S,
  SAMPLE_EVERY_S,
  spanWords,
} from "../../../rules/index.ts";
import { type RuleSpec, type Sensor, type Site, sensorById } from "../../../site/index.ts";
import { CAUTION } from "../cautions.ts";
import { ladderOf } from "../set-up.ts";
import type { Trial } from "../types.ts";
import { unitOf } from "../words.ts";
import { type BringAbout, bringAbout } from "./bring-about.ts";
import { heldBack, plugWords, roomSteps } from "./plugs.ts";
import { QUARTER_MONTHS } from "./quarter.ts";

/** What a hold time is set to for a trial where it is longer than the place may wait, s. */
const SHORT_HOLD_S = 60;

export function ruleTrials(site: Site): readonly Trial[] {
  return site.rules.map((rule) => ruleTrial(site, rule));
}

interface Waiting {
  /** Hold and silence as they are set, s. */
  readonly setS: number;
  readonly shortened: boolean;
  readonly withinS: number;
}

function ruleTrial(site: Site, rule: RuleSpec): Trial {
  const terms = rule.when.all.map(({ sensor, is }) => ({ sensor: sensorById(site, sensor), is }));
  const ways = terms.map(({ sensor, is }) => bringAbout(site, sensor, is));
  const waiting = waitFor(site, rule, terms, ways);
  const back = heldBack(site, rule);
  const still = [
    ...rule.act.filter(({ state }) => state === "off").map(({ device }) => device),
    ...terms
      .filter(({ sensor }) => sensor.measures === "flow" || sensor.measures === "power")
      .map(({ sensor }) => sensor.at),
  ];
  const cautions = [...ways.map((way) => way.caution), back.length > 0 ? CAUTION.plug : null];
  return {
    id: `${rule.id}.works`,
    part: rule.id,
    title: `Rule ${rule.id} does what it is there for`,
    steps: [
      ...(rule.only.length > 0 ? [`Do it in these hours, in which alone it works: ${hoursWords(rule)}.`] : []),
      ...(rule.notOftenerS > 0 ? [`Do it when it has not begun in the last ${spanWords(rule.notOftenerS)}.`] : []),
      ...(waiting.shortened
        ? [
            `Set its time at ${rule.hub} from ${spanWords(waiting.setS)} to ${spanWords(SHORT_HOLD_S)} for the trial, so that nothing stands still for long.`,
          ]
        : []),
      ...(back.length > 0
        ? [
            `Unplug ${listWords(back.map(plugWords))} and put a lamp into the socket instead, so that the socket is seen to switch and the water is left alone.`,
          ]
        : []),
      ...roomSteps(site, still),
      ...ways.flatMap(({ steps }) => steps),
    ],
    must: [
      ...actsSeen(
        rule,
        back.map(({ id }) => id),
      ),
      ...noticeSeen(site, rule),
      ...endSeen(site, rule),
    ],
    withinS: waiting.withinS,
    putBack: [
      ...new Set(ways.map(({ putBack }) => putBack)),
      ...(back.length > 0 ? [`Take the lamp away and plug ${listWords(back.map(({ id }) => id))} in again.`] : []),
      ...(waiting.shortened ? [`Set the time at ${rule.hub} back to ${spanWords(waiting.setS)}.`] : []),
    ].join(" "),
    caution: cautions.find((caution) => caution !== null) ?? null,
    everyMonths: QUARTER_MONTHS,
    renews: { of: "rule", key: "testedMonths" },
  };
}

/**
 * Until it must have acted, at most: the sensor's own lag, the next result of a machine tester, one reading of the hub to see it
 * and one more to see that it held, the hold time, for what the hub works out every few minutes one such span, and for a rate the
 * time over which it is measured.
 */
function waitFor(
  site: Site,
  rule: RuleSpec,
  terms: readonly { readonly sensor: Sensor; readonly is: RuleSpec["when"]["all"][number]["is"] }[],
  ways: readonly BringAbout[],
): Waiting {
  const readsEveryS = site.hubs.find(({ id }) => id === rule.hub)?.readsEveryS ?? 0;
  const ownS = Math.max(0, ...terms.map(({ is }) => ("forS" in is ? is.forS : 0)));
  const setS = rule.when.forS + ownS;
  const longestS = Math.min(...ways.map((way) => way.longestS));
  const shortened = setS > longestS;
  const heldS = shortened ? SHORT_HOLD_S : setS;
  const lagS = Math.max(0, ...terms.map(({ sensor }) => sensor.lagS));
  const testerS = 3600 * Math.max(0, ...terms.map(({ sensor }) => sensor.everyH));
  const isRate = terms.some(({ is }) => is.op === "rising" || is.op === "falling");
  const isSampled = isRate || terms.some(({ is }) => is.op === "differs" || is.op === "unchanged");
  const sampledS = (isRate ? RATE_WINDOW_S : 0) + (isSampled ? SAMPLE_EVERY_S : 0);
  return {
    setS,
    shortened,
    withinS: lagS + testerS + sampledS + heldS + readsEveryS * (heldS > 0 ? 2 : 1),
  };
}

function actsSeen(rule: RuleSpec, lamps: readonly string[]): readonly string[] {
  return (["off", "on"] as const).flatMap((state) => {
    const ids = rule.act.filter((act) => act.state === state).map(({ device }) => device);
    if (ids.length === 0) return [];
    const withLamp = ids.filter((id) => lamps.includes(id));
    const lampWords = withLamp.length === 0 ? "" : `, shown by the lamp for ${listWords(withLamp)}`;
    const verb = ids.length === 1 ? "goes" : "go";
    return [`${listWords(ids)} ${verb} ${state}${lampWords}.`];
  });
}

function noticeSeen(site: Site, rule: RuleSpec): readonly string[] {
  if (rule.notice === null) return [];
  const hub = site.hubs.find(({ id }) => id === rule.hub);
  const siren = hub?.siren ?? false;
  const words = `${rule.notice === "soon" ? "A notice to be seen soon" : rule.notice === "urgent" ? "An urgent notice" : "A note"} "${rule.says}"`;
  if (hub === undefined || (hub.sendsOver.length === 0 && !siren))
    return [`${words} stands at ${rule.hub}; it has no way out.`];
  const rungs = ladderOf(site, rule.notice, siren).filter(({ over }) => over.length > 0);
  if (rule.notice === "note" || rungs.length === 0) return [`${words} leaves ${rule.hub}.`];
  const [first, ...rest] = rungs;
  const then = rest.map(({ person, afterMin }) => `${person} after ${spanWords(afterMin * 60)}`);
  const later = then.length === 0 ? "" : ` Where nobody takes it, it goes on to ${listWords(then)}.`;
  return [
    `${words} reaches ${first.person} by ${listWords(first.over)}${siren ? ", and the siren sounds" : ""}.${later}`,
  ];
}

function endSeen(site: Site, rule: RuleSpec): readonly string[] {
  if (rule.act.length === 0) return [];
  const end =
    rule.until === null
      ? `it no longer holds that ${conditionWords({ ...rule.when, forS: 0 }, unitOf(site))}`
      : conditionWords(rule.until, unitOf(site));
  return [`It ends when ${end}.`];
}
