import type { Site } from "../../server/contract/index.ts";
import { apply, check, type Outcome } from "../draft/draft-store.ts";
import { editWords } from "../words/site-edit.ts";

/** Takes a part out of the draft, and says in the step's name what goes with it. */
export async function takeOut(site: Site, id: string): Promise<Outcome> {
  const edits = [{ op: "take-out", part: id }] as const;
  const after = (await check(edits))?.site ?? null;
  const others = after === null ? [] : [...idsOf(site)].filter((part) => part !== id && !idsOf(after).has(part));
  return apply(others.length === 0 ? editWords.takenOut(id) : editWords.takenOutToo(id, others), edits);
}

function idsOf(site: Site): ReadonlySet<string> {
  const { bodies, flows, devices, sensors, rules, systems } = site;
  return new Set([bodies, devices, sensors, rules, systems, flows].flatMap((parts) => parts.map(({ id }) => id)));
}
