import type { Site } from "./contract/index.ts";

/** Names of the parts that are new, gone or otherwise in one of two descriptions. */
export function changedParts(before: Site | null, after: Site | null): readonly string[] {
  const a = partsOf(before);
  const b = partsOf(after);
  const ids = new Set([...a.keys(), ...b.keys()]);
  return [...ids].filter((id) => a.get(id) !== b.get(id));
}

function partsOf(site: Site | null): ReadonlyMap<string, string> {
  const parts = Object.values(site ?? {}).flatMap((value: unknown) =>
    Array.isArray(value) ? (value as unknown[]) : [],
  );
  return new Map(
    parts.flatMap((part): [string, string][] =>
      typeof part === "object" && part !== null && "id" in part ? [[String(part.id), JSON.stringify(part)]] : [],
    ),
  );
}
