/** What the rules switch, known before the rules themselves are built: devices take some defaults from it. */
import type { RULE_KEYS } from "../keys/sensors-and-rules.ts";
import type { Hub } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";

export interface RuleSketch {
  readonly switches: (device: string) => boolean;
  readonly switchesOn: (device: string) => boolean;
  /** The hub whose rules switch the device; null where none does or several do. */
  readonly hubThatSwitches: (device: string) => string | null;
}

export function sketchRules(rules: readonly WrittenPart<typeof RULE_KEYS>[], hubs: readonly Hub[]): RuleSketch {
  const known = new Set(hubs.map((hub) => hub.id));
  const acts = rules.flatMap((rule) =>
    (rule.written.do?.value ?? []).map((act) => ({ ...act, hub: rule.written.hub?.value ?? hubs[0]?.id ?? "" })),
  );
  return {
    switches: (device) => acts.some((act) => act.device === device),
    switchesOn: (device) => acts.some((act) => act.device === device && act.state === "on"),
    hubThatSwitches: (device) => {
      const found = new Set(acts.filter((act) => act.device === device && known.has(act.hub)).map((act) => act.hub));
      return found.size === 1 ? [...found][0] : null;
    },
  };
}
