/**
 * Rules: when a condition holds for a while, act on devices and raise a notice, until another condition.
 *
 * One engine for the rehearsal and for the live watch, so that what is rehearsed is what runs. It knows no clock and no
 * disk: times and readings are arguments, everything that it remembers lies in one `Float64Array` that may be copied,
 * kept and put back. How it decides is told in docs/how/rules.md.
 *
 * Looks down on: site (types only), foundation. Never heard of: twin, drills, watch.
 */
export { conditionWords, describeRule, hoursWords } from "./describe-rule.ts";
export { explainRule } from "./explain-rule.ts";
export type { RuleTable } from "./rule-table.ts";
export { ABOVE, BELOW, BETWEEN, compileRules, OUTSIDE, ruleStateSize } from "./rule-table.ts";
export { comparisonWords, listWords, spanWords } from "./rule-words.ts";
export { RATE_WINDOW_S, SAMPLE_EVERY_S } from "./sampled-terms.ts";
export type { RuleOutput } from "./step-rules.ts";
export { initRuleState, isActive, makeRuleOutput, stepRules } from "./step-rules.ts";
export type { RuleLimits } from "./timed-change.ts";
export { limitsOf, nextTimedChangeS } from "./timed-change.ts";
