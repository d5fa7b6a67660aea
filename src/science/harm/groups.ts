/** Who can be harmed and by what. The order is fixed: simulators keep these positions in arrays. */

export const GROUPS = [
  "reef-fish",
  "active-fish",
  "seahorses",
  "soft",
  "large-polyp",
  "small-polyp",
  "mixed",
  "invertebrates",
] as const;

/** Fish by temper, corals by build, and the other invertebrates (shrimps, snails, urchins, anemones). */
export type Group = (typeof GROUPS)[number];

export const STRESSORS = [
  "heat",
  "cold",
  "hypoxia",
  "low-salinity",
  "high-salinity",
  "high-ph",
  "low-ph",
  "ammonia",
  "co2",
  "emersion",
  "darkness",
] as const;

export type Stressor = (typeof STRESSORS)[number];

/** What the number `x` of each stressor is, with its unit. */
export const STRESSOR_MEASURE: Readonly<Record<Stressor, string>> = {
  heat: "water temperature, degrees C",
  cold: "water temperature, degrees C",
  hypoxia: "dissolved oxygen, mg/L",
  "low-salinity": "practical salinity",
  "high-salinity": "practical salinity",
  "high-ph": "pH, total scale",
  "low-ph": "pH, total scale",
  ammonia: "un-ionised ammonia, mg N/L",
  co2: "partial pressure of CO2, uatm",
  emersion: "share of the normal water depth that is gone, 0 to 1",
  darkness: "hours since the last useful light",
};

/** Position of a group in GROUPS. */
export function groupIndex(group: Group): number {
  return GROUPS.indexOf(group);
}

/** Position of a stressor in STRESSORS. */
export function stressorIndex(stressor: Stressor): number {
  return STRESSORS.indexOf(stressor);
}
