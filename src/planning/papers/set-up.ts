/** The set-up sheet: what to enter into whatever hardware switches the place, and what each plug and circuit carries. */
import { describeRule } from "../../rules/index.ts";
import type { Person, RuleSpec, Site } from "../../site/index.ts";
import { SITE_CAUTIONS } from "./cautions.ts";
import { batteryLine, circuitLoads } from "./loads.ts";
import type { NoticeLine, Rung, SetUpSheet, Socket } from "./types.ts";
import { unitOf, waysTo, windowsWords } from "./words.ts";

export function setUpSheet(site: Site): SetUpSheet {
  const unit = unitOf(site);
  return {
    volts: site.mains.volts,
    sockets: sockets(site),
    circuits: circuitLoads(site),
    batteries: site.batteries.map((battery) => batteryLine(site, battery)),
    hubs: site.hubs.map(({ id, on, readsEveryS, sendsOver, watchdog, siren }) => ({
      hub: id,
      on,
      readsEveryS,
      sendsOver,
      watchdog,
      siren,
    })),
    rules: site.rules.map((rule) => ({ rule: rule.id, hub: rule.hub, words: describeRule(rule, unit) })),
    notices: site.rules.flatMap((rule) => noticeLines(site, rule)),
    silenceWatch:
      site.silenceWatch === null
        ? null
        : {
            afterMin: site.silenceWatch.afterMin,
            tells: site.silenceWatch.tells.flatMap((id) => rungsOf(site, id, 0, "urgent", false)),
          },
    cautions: SITE_CAUTIONS,
  };
}

/** By circuit, so that the sheet reads along the strips. */
function sockets(site: Site): readonly Socket[] {
  const places = [...site.circuits.map(({ id }) => id), ...site.batteries.map(({ id }) => id)];
  const place = (on: string | null): number => (on === null ? places.length : places.indexOf(on));
  return site.devices
    .toSorted((a, b) => place(a.on) - place(b.on))
    .map((device) => ({
      device: device.id,
      kind: device.kind,
      system: device.system,
      circuit: device.on,
      hub: device.by,
      loadW: device.powerW,
      loadA: device.powerW / site.mains.volts,
      withoutHub: device.by === null ? null : device.withoutHub,
      normally: device.normally,
      hours: windowsWords(device.schedule),
    }));
}

function noticeLines(site: Site, rule: RuleSpec): readonly NoticeLine[] {
  if (rule.notice === null) return [];
  const hub = site.hubs.find(({ id }) => id === rule.hub);
  const siren = hub?.siren ?? false;
  return [
    {
      rule: rule.id,
      urgency: rule.notice,
      says: rule.says,
      ladder: ladderOf(site, rule.notice, siren),
      sentOver: hub?.sendsOver ?? [],
      siren,
    },
  ];
}

/** The ladder that a notice climbs, with minutes counted from its sending. */
export function ladderOf(site: Site, urgency: "urgent" | "soon" | "note", siren: boolean): readonly Rung[] {
  let afterMin = 0;
  return site.ladder.flatMap((step) => {
    afterMin += step.afterMin;
    return rungsOf(site, step.person, afterMin, urgency, siren);
  });
}

function rungsOf(
  site: Site,
  id: string,
  afterMin: number,
  urgency: "urgent" | "soon" | "note",
  siren: boolean,
): Rung[] {
  const person: Person | undefined = site.people.find((one) => one.id === id);
  return person === undefined ? [] : [{ person: id, afterMin, over: waysTo(person, urgency, siren) }];
}
