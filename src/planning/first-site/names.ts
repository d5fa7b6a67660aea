/** Names of parts: from what people call things to words that a site file takes, each used once. */

/** Words with a meaning of their own in a site file, and those that the writer uses for what is there once. */
const TAKEN = [
  "mains",
  "for",
  "none",
  "on",
  "off",
  "never",
  "after",
  "room",
  "house",
  "router",
  "line",
  "mobile",
  "hub",
];
const LONGEST = 40;

/** "Großes Riff 2" -> "großes-riff-2"; empty where nothing of it can stand in a name. */
export function slug(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^[^\p{L}]+/u, "")
    .slice(0, LONGEST)
    .replace(/-+$/, "");
}

export interface Names {
  /** A free name like the wanted one, or like the fallback where nothing of the wanted one can be used. */
  take(wanted: string, fallback: string): string;
}

export function openNames(): Names {
  const taken = new Set(TAKEN);
  return {
    take(wanted, fallback) {
      const stem = slug(wanted) || fallback;
      let name = stem;
      for (let number = 2; taken.has(name) || name in Object.prototype; number++) name = `${stem}-${number}`;
      taken.add(name);
      return name;
    },
  };
}
