/** Times and names as people say them. */

/** `4 h 35 min`, `3 d 18 h`, `12 s`: two parts at most. */
export function duration(minutes: number): string {
  const abs = Math.abs(minutes);
  if (abs < 1) return `${Math.round(abs * 60)} s`;
  if (abs < 60) return `${Math.round(abs)} min`;
  if (abs < 1440) {
    const hours = Math.floor(abs / 60);
    const rest = Math.round(abs - hours * 60);
    if (rest === 60) return `${hours + 1} h`;
    return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
  }
  const days = Math.floor(abs / 1440);
  const hours = Math.round((abs - days * 1440) / 60);
  if (hours === 24) return `${days + 1} d`;
  return hours === 0 ? `${days} d` : `${days} d ${hours} h`;
}

/** The margin with its sign, `+ 4 h 35 min`, `− 38 min`. */
export function signedDuration(minutes: number): string {
  return `${minutes < 0 ? "−" : "+"} ${duration(minutes)}`;
}

const STRESSOR_WORDS: Readonly<Record<string, string>> = {
  heat: "too warm",
  cold: "too cold",
  hypoxia: "short of oxygen",
  "low-salinity": "in water too fresh",
  "high-salinity": "in water too salt",
  "high-ph": "in water too alkaline",
  "low-ph": "in water too acid",
  ammonia: "in ammonia",
  co2: "in carbon dioxide",
  emersion: "out of the water",
  darkness: "too long in the dark",
};

/** "corals (mixed) in display too warm" */
export function harmInWords(harm: {
  readonly body: string;
  readonly group: string;
  readonly stressor: string;
}): string {
  if (harm.group === "house") return "water stands on the floor";
  const who = ["soft", "large-polyp", "small-polyp", "mixed"].includes(harm.group)
    ? `corals (${harm.group})`
    : harm.group;
  return `${who} in ${harm.body} are ${STRESSOR_WORDS[harm.stressor] ?? harm.stressor}`;
}
