/**
 * What remedies cost, roughly: money for parts of a middling sort, minutes until they are in place, minutes of upkeep a month.
 *
 * "practice" is what keepers commonly pay and take; "guess" is ours. None of it was measured, prices differ by country and
 * size, and labour is counted only where a licensed person must do it. Change them here, and docs/remedies.md follows.
 */
export interface Effort {
  readonly lowEUR: number;
  readonly highEUR: number;
  readonly minutesOnce: number;
  readonly minutesPerMonth: number;
  readonly from: "practice" | "guess";
  /** What is meant by it. */
  readonly covers: string;
}

const row = (
  lowEUR: number,
  highEUR: number,
  minutesOnce: number,
  minutesPerMonth: number,
  from: Effort["from"],
  covers: string,
): Effort => ({ lowEUR, highEUR, minutesOnce, minutesPerMonth, from, covers });

export const EFFORTS = {
  "second-thermometer": row(
    10,
    40,
    30,
    3,
    "practice",
    "a probe, its lead, a holder; a look against another one each quarter",
  ),
  "sensor-guard": row(0, 0, 5, 0, "guess", "two lines of settings"),
  "rule-notice": row(0, 0, 5, 1, "guess", "one line of settings, and its trial each quarter"),
  "notice-below-cut-out": row(0, 0, 10, 1, "guess", "a rule, and its trial each quarter"),
  "pump-watch": row(15, 80, 45, 4, "practice", "a flow sensor in the pipe that is cleaned each quarter"),
  "power-watch": row(15, 40, 20, 1, "practice", "a socket that measures"),
  "light-watch": row(20, 120, 30, 2, "practice", "a light sensor that is wiped"),
  "leak-watch": row(10, 40, 20, 1, "practice", "a rope sensor on the floor, wetted once a quarter"),
  "leak-notice": row(0, 0, 5, 1, "guess", "one rule"),
  "leak-stops": row(20, 80, 30, 1, "practice", "switched sockets for what may run over"),
  "ph-watch": row(60, 150, 45, 8, "practice", "a probe, two fluids, a new probe every year or two"),
  "ph-notice": row(0, 20, 15, 1, "guess", "rules on a probe that is there, and a switched socket"),
  "salinity-watch": row(80, 250, 45, 6, "practice", "a conductivity probe that is cleaned and compared"),
  "oxygen-watch": row(150, 400, 45, 5, "practice", "an optical probe; a new cap every year or two"),
  "display-high": row(20, 60, 60, 2, "practice", "a float at the rim and a switched socket, lifted each quarter"),
  "sump-low": row(10, 40, 40, 2, "practice", "a float in the sump, lowered each quarter"),
  "plausible-range": row(0, 0, 5, 0, "guess", "one value of a rule"),
  "spare-stops-at": row(10, 40, 40, 2, "practice", "a second float of another kind, lifted each quarter"),
  "longest-run": row(0, 30, 15, 1, "practice", "a setting, or a timer in series"),
  "at-most": row(0, 0, 5, 1, "guess", "one value of a rule"),
  "smaller-reservoir": row(10, 60, 60, 0, "practice", "a small can; the refills are counted beside"),
  "day-vessel": row(60, 160, 150, 8, "practice", "a small vessel, a second pump with a float and a timer, hose"),
  "outlet-raised": row(0, 10, 20, 0, "practice", "a clip, and a hole in the hose above the water"),
  "lime-apart": row(150, 400, 180, 15, "practice", "two dosing heads, two cans, salts; mixing every few weeks"),
  "slower-head": row(60, 150, 30, 0, "practice", "another dosing head"),
  "smaller-can": row(5, 20, 20, 10, "practice", "a small can that is filled more often"),
  "smaller-portions": row(0, 0, 5, 0, "guess", "a setting"),
  "own-thermostat": row(25, 70, 30, 1, "practice", "a heater with a dial of its own"),
  "cut-out": row(
    30,
    80,
    40,
    2,
    "practice",
    "an independent thermostat in the socket, tried in a warm cup each quarter",
  ),
  "two-heaters": row(50, 140, 45, 2, "practice", "two small heaters in place of a large one"),
  "spare-heater": row(30, 80, 30, 3, "practice", "a heater that waits, tried each month"),
  "other-batch": row(30, 80, 20, 0, "practice", "one heater of another make"),
  "without-hub-off": row(0, 0, 5, 0, "guess", "a setting of the socket"),
  "share-out": row(0, 30, 40, 0, "practice", "plugs moved, leads led with drip loops"),
  "new-circuit": row(200, 800, 60, 1, "guess", "half a day of an electrician; the button pressed each quarter"),
  "closes-again": row(80, 300, 30, 0, "guess", "another protective device, put in by an electrician"),
  "battery-air": row(30, 120, 30, 5, "practice", "an air pump with cells that starts by itself, tried each month"),
  "larger-battery": row(60, 300, 30, 3, "practice", "a lead or lithium battery with its charger"),
  "hub-battery": row(
    60,
    250,
    45,
    4,
    "practice",
    "a battery that takes over by itself, and a relay that sees the mains",
  ),
  "mobile-link": row(40, 140, 45, 2, "practice", "a radio modem; a card costs a few euro a month besides"),
  "silence-watch": row(0, 60, 40, 3, "practice", "a service outside the house that expects a word every few minutes"),
  siren: row(10, 30, 20, 1, "practice", "a loud buzzer"),
  calls: row(0, 40, 15, 1, "practice", "a service that rings; some cents a call"),
  "another-person": row(0, 100, 120, 10, "guess", "a key, a page at the tank, an hour together"),
  "look-hour": row(0, 0, 5, 40, "guess", "five minutes twice a weekend, and the way"),
  "spare-drain": row(30, 120, 150, 2, "practice", "a hole, a pipe, a strainer, tried each quarter"),
  "nozzle-raised": row(0, 20, 30, 0, "practice", "a shorter nozzle, two holes"),
  "floor-drain": row(500, 3000, 60, 1, "guess", "building work"),
  "pump-service": row(0, 5, 45, 12, "practice", "taken apart and soaked each quarter"),
  "trial-hub": row(0, 0, 20, 10, "practice", "each rule provoked, each notice awaited"),
  "trial-battery": row(0, 0, 10, 5, "practice", "the plug pulled"),
  "trial-device": row(0, 0, 10, 3, "practice", "a cut-out warmed, a float lifted, a spare run"),
  "trial-sensor": row(0, 0, 5, 2, "practice", "a wet cloth, a lifted float, a second meter"),
  "trial-flow": row(0, 0, 15, 5, "practice", "the return's plug pulled, and a look at the sump"),
  "trial-person": row(0, 0, 5, 3, "practice", "a trial message that must be answered"),
  "trial-silence": row(0, 0, 10, 3, "practice", "the hub unplugged, and a wait for the notice"),
  "feeder-on-cells": row(20, 60, 15, 2, "practice", "a feeder that runs on cells, changed twice a year"),
} as const satisfies Readonly<Record<string, Effort>>;

export type EffortName = keyof typeof EFFORTS;
