/** A rule in plain words, for set-up sheets and screens. */
import { formatWindow } from "../foundation/index.ts";
import type { ConditionSpec, RuleSpec } from "../site/index.ts";
import { comparisonWords, listWords, spanWords } from "./rule-words.ts";

const NOTICE_WORDS = { urgent: "send an urgent notice", soon: "send a notice to be seen soon", note: "write a note" };

/**
 * What the rule does, in sentences, e.g. "When display-temp is above 27.2 degC for 10 min: switch heater-1 off and send
 * an urgent notice. This ends as soon as that no longer holds."
 *
 * @param unitOf Unit of a sensor's readings; leave it out and the numbers stand alone.
 */
export function describeRule(rule: RuleSpec, unitOf: (sensor: string) => string = () => ""): string {
  const steps = rule.act.map((act) => `switch ${act.device} ${act.state}`);
  if (rule.notice !== null) steps.push(NOTICE_WORDS[rule.notice] + (rule.says === "" ? "" : ` ("${rule.says}")`));
  const sentences = [`When ${conditionWords(rule.when, unitOf)}: ${listWords(steps) || "do nothing"}.`];
  if (rule.act.length > 0) sentences.push(endWords(rule, unitOf));
  if (rule.notOftenerS > 0) sentences.push(`It starts at most once in ${spanWords(rule.notOftenerS)}.`);
  if (rule.only.length > 0) sentences.push(`It works only in these hours: ${hoursWords(rule)}.`);
  return sentences.join(" ");
}

/** The hours in which a rule works. */
export function hoursWords(rule: RuleSpec): string {
  return listWords(rule.only.map(formatWindow));
}

/** A condition as the second half of a "when" or "until". */
export function conditionWords(condition: ConditionSpec, unitOf: (sensor: string) => string): string {
  const terms = condition.all.map(({ sensor, is }) => {
    const verb = is.op === "unchanged" || is.op === "silent" ? "has been" : "is";
    return `${sensor} ${verb} ${comparisonWords(is, unitOf(sensor))}`;
  });
  if (condition.forS === 0) return listWords(terms);
  return `${listWords(terms)}${terms.length > 1 ? ", all together" : ""} for ${spanWords(condition.forS)}`;
}

function endWords(rule: RuleSpec, unitOf: (sensor: string) => string): string {
  const end = rule.until === null ? "as soon as that no longer holds" : `when ${conditionWords(rule.until, unitOf)}`;
  if (rule.atMostS === null) return `This ends ${end}.`;
  return `This ends ${end}, and after ${spanWords(rule.atMostS)} at most; then not again before the condition has been away.`;
}
