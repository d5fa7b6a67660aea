/**
 * How a notice leaves the house: hub, link, line, service, each with its power. A notice that finds no way out waits until
 * there is one. Outside the house, a watch may turn the hub's silence into a notice.
 */
import { askLever, hubWorks, leverAt, linkCarries, mustFind, SITE_LEVERS, type Twin } from "../twin/index.ts";
import type { Urgency } from "./people.ts";

export interface Notice {
  readonly rule: string;
  readonly says: string;
  readonly urgency: Urgency;
  readonly raisedS: number;
  /** Infinity while it has found no way out. */
  sentS: number;
  /** When the hub's own siren first sounded for it; Infinity where it has none. */
  sirenS: number;
  readonly from: "hub" | "silence watch";
  readonly hub: number;
}

/** Seconds from the hub to the phone where all works. */
const ON_THE_WAY_S = 20;

export class Messenger {
  readonly notices: Notice[] = [];
  readonly #twin: Twin;
  #downSinceS: number | null = null;
  #silenceTold = false;

  constructor(twin: Twin) {
    this.#twin = twin;
  }

  /** A rule wants to tell someone. */
  raise(rule: string, says: string, tS: number): void {
    const { site, hubIndex } = this.#twin.model;
    const spec = mustFind(
      site.rules.find((one) => one.id === rule),
      `The rule '${rule}'`,
    );
    const hub = mustFind(hubIndex.get(spec.hub), `The hub '${spec.hub}'`);
    this.notices.push({
      rule,
      says,
      urgency: spec.notice ?? "note",
      raisedS: tS,
      sentS: Number.POSITIVE_INFINITY,
      sirenS: this.#siren(hub) && spec.notice !== "note" ? tS : Number.POSITIVE_INFINITY,
      from: "hub",
      hub,
    });
    this.deliver(tS);
  }

  /** Sends what waits, if there is a way; minds the silence. Call it at every look of the drill. */
  deliver(nowS: number): void {
    for (const notice of this.notices) {
      if (!Number.isFinite(notice.sentS) && notice.from === "hub" && this.#wayOut(notice.hub))
        notice.sentS = nowS + ON_THE_WAY_S;
    }
    this.#mindSilence(nowS);
  }

  /** Whether a hub can be heard in the building now. */
  #siren(hub: number): boolean {
    const { site } = this.#twin.model;
    return site.hubs[hub]?.siren === true && hubWorks(this.#twin, hub);
  }

  #ask(part: string, name: string): number {
    return askLever(this.#twin, leverAt(this.#twin.model, part, name));
  }

  #wayOut(hub: number): boolean {
    const { site } = this.#twin.model;
    return this.#heartbeat(hub) && this.#ask(site.hubs[hub].id, "muted") === 0;
  }

  #heartbeat(hub: number): boolean {
    const { model } = this.#twin;
    if (!hubWorks(this.#twin, hub)) return false;
    return model.site.hubs[hub].sendsOver.some((id) => {
      const link = model.linkIndex.get(id);
      if (link === undefined || !linkCarries(this.#twin, link)) return false;
      return model.site.links[link].kind === "mobile" || this.#ask(SITE_LEVERS, "serviceDown") === 0;
    });
  }

  #mindSilence(nowS: number): void {
    const { site } = this.#twin.model;
    if (site.silenceWatch === null || this.#silenceTold || site.hubs.length === 0) return;
    const silent = site.hubs.some((_, hub) => !this.#heartbeat(hub));
    if (!silent) {
      this.#downSinceS = null;
      return;
    }
    this.#downSinceS ??= nowS;
    if (nowS - this.#downSinceS < site.silenceWatch.afterMin * 60) return;
    if (this.#ask(SITE_LEVERS, "silenceWatchDead") > 0) return;
    const sentS = this.#downSinceS + site.silenceWatch.afterMin * 60;
    this.#silenceTold = true;
    this.notices.push({
      rule: "silence watch",
      says: `no word from ${site.name}`,
      urgency: "urgent",
      raisedS: sentS,
      sentS,
      sirenS: Number.POSITIVE_INFINITY,
      from: "silence watch",
      hub: -1,
    });
  }
}
