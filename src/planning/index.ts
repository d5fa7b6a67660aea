/** Planning: plans and answers by search. So far: from a conversation to a first site file. */
export * from "./first-site/answers.ts";
export type { AnswerError, Assumption, FirstSite } from "./first-site/first-site.ts";
export { firstSite } from "./first-site/first-site.ts";
