/** Rules that could never hold, never end, or chatter. */
import type { Building } from "../build/building.ts";
import { formatComparison } from "../build/comparisons.ts";
import type { Comparison, ConditionSpec, RuleSpec, Sensor, Site } from "../model.ts";

type Threshold = Extract<Comparison, { op: "below" | "above" }>;

function isThreshold(is: Comparison): is is Threshold {
  return is.op === "below" || is.op === "above";
}

const OPPOSITE: Readonly<Record<string, string>> = {
  below: "above",
  above: "below",
  wet: "dry",
  dry: "wet",
  present: "absent",
  absent: "present",
};

/** What is wrong with an end against a beginning on the same sensor, or null. */
function contradiction(begin: Comparison, end: Comparison): string | null {
  if (
    begin.op === end.op &&
    (begin.op === "wet" || begin.op === "dry" || begin.op === "present" || begin.op === "absent")
  ) {
    return "ends at once, because it ends on what begins it";
  }
  if (!isThreshold(begin) || !isThreshold(end)) return null;
  if (begin.op === end.op)
    return `both lie on the same side: a rule that begins ${begin.op} a value ends ${OPPOSITE[begin.op]} one`;
  const gap = begin.op === "above" ? begin.value - end.value : end.value - begin.value;
  if (gap < 0) return "both can hold at once, so the rule would end as soon as it begins";
  return gap === 0 ? "there is no gap between them, so it would switch to and fro" : null;
}

function checkHysteresis(building: Building, rule: RuleSpec, sensors: readonly Sensor[]): void {
  for (const begin of rule.when.all) {
    for (const end of rule.until?.all ?? []) {
      if (begin.sensor !== end.sensor) continue;
      const wrong = contradiction(begin.is, end.is);
      const sensor = sensors.find((entry) => entry.id === begin.sensor);
      if (wrong === null || sensor === undefined) continue;
      const message = `begins ${formatComparison(begin.is, sensor)} and ends ${formatComparison(end.is, sensor)}: ${wrong}`;
      const hint =
        "leave a gap between them that is wider than the sensor's noise, like below 25.2 degC until above 25.6 degC";
      building.complain(rule.id, "until", "rule/hysteresis", message, hint);
    }
  }
}

function holdsNever(all: ConditionSpec["all"]): string | null {
  for (const one of all) {
    for (const other of all) {
      if (one.sensor !== other.sensor || one === other) continue;
      if (one.is.op === "above" && other.is.op === "below" && one.is.value >= other.is.value) return one.sensor;
      if (OPPOSITE[one.is.op] === other.is.op && !isThreshold(one.is)) return one.sensor;
    }
  }
  return null;
}

function checkRule(building: Building, site: Site, rule: RuleSpec): void {
  checkHysteresis(building, rule, site.sensors);
  const never = holdsNever(rule.when.all);
  if (never !== null) {
    const hint = "all of a condition must hold together: make two rules of it";
    building.complain(rule.id, "when", "rule/never", `what is asked of ${never} can never hold at once`, hint);
  }
}

export function checkRules(building: Building, site: Site): void {
  for (const rule of site.rules) checkRule(building, site, rule);
}
