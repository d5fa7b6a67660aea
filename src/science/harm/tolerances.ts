/**
 * How long livestock bears what: median hours to effect (half of the animals) at steady exposure.
 *
 * Each row gives points (x, hours); between and beyond them the logarithm of the hours runs straight along x, or along the
 * logarithm of x. That one form holds the thermal death time curves of Rezende et al. 2014, power laws of concentration,
 * and single observed times. Sources and certainty: docs/science.md#tolerances.
 */
import type { Group, Stressor } from "./groups.ts";

export interface Tolerance {
  readonly group: Group;
  readonly stressor: Stressor;
  /** No harm until x passes this. */
  readonly threshold: number;
  /** The side of the threshold on which harm lies. */
  readonly harmIs: "above" | "below";
  /** True where threshold and points are counted from the highest temperature that the animal is used to. */
  readonly relative: boolean;
  /** What the logarithm of the hours is straight along. */
  readonly along: "x" | "logarithm of x";
  /** (x, median hours to effect), in order of x; two or three, or one where the time does not depend on x. */
  readonly points: readonly (readonly [x: number, hours: number])[];
  /** The hours may be this many times more or less. */
  readonly factor: number;
  /** Time constant of recovery once x is back, h. */
  readonly repairHours: number;
  readonly source: string;
  /** True where the numbers rest on practice or judgement alone. */
  readonly convention: boolean;
}

/** A row for several groups; `hoursTimes` stretches the hours of some of them. */
interface SharedTolerance extends Omit<Tolerance, "group"> {
  readonly groups: readonly Group[];
  readonly hoursTimes?: Partial<Record<Group, number>>;
}

const FISH = ["reef-fish", "active-fish", "seahorses"] as const;
const CORALS = ["soft", "large-polyp", "small-polyp", "mixed"] as const;
const SPINELESS = [...CORALS, "invertebrates"] as const;
const EVERYONE = [...FISH, ...SPINELESS] as const;

const DAY_H = 24;
const published = { convention: false, relative: false, along: "x" } as const;
const convention = { convention: true, relative: false, along: "x" } as const;

const SHARED: readonly SharedTolerance[] = [
  {
    ...published,
    groups: ["reef-fish", "active-fish"],
    stressor: "heat",
    threshold: 31.5,
    harmIs: "above",
    points: [
      [33.4, 100],
      [36.4, 1],
    ],
    factor: 3,
    repairHours: 2 * DAY_H,
    source:
      "critical thermal maxima of reef fishes 36.6 to 40.1; short exposures at 34 fatal to some (Rummer et al. 2014)",
  },
  {
    ...convention,
    groups: ["seahorses"],
    stressor: "heat",
    threshold: 26.5,
    harmIs: "above",
    points: [
      [27, 500],
      [30, 50],
      [34.5, 1],
    ],
    factor: 5,
    repairHours: 7 * DAY_H,
    source: "husbandry practice: kept under 25 for fear of bacterial disease; no dose data",
  },
  {
    convention: false,
    relative: true,
    along: "x",
    groups: CORALS,
    stressor: "heat",
    threshold: 1,
    harmIs: "above",
    points: [
      [1.5, 10 ** 2.7],
      [4.36, 10 ** 1.7],
    ],
    hoursTimes: { soft: 1.5, "large-polyp": 2, "small-polyp": 0.7 },
    factor: 3,
    repairHours: 20 * DAY_H,
    source:
      "degree heating weeks (4 and 8 degree-weeks) joined with 18 h heat assays (50 % effect 6 to 7 degrees above the summer mean)",
  },
  {
    ...convention,
    groups: ["invertebrates"],
    stressor: "heat",
    threshold: 31,
    harmIs: "above",
    points: [
      [32.5, 100],
      [35.5, 1],
    ],
    factor: 5,
    repairHours: 3 * DAY_H,
    source: "set one degree under reef fish",
  },
  {
    ...published,
    groups: ["reef-fish", "active-fish"],
    stressor: "cold",
    threshold: 20,
    harmIs: "below",
    points: [
      [13.5, 1],
      [17.5, 100],
    ],
    factor: 4,
    repairHours: 2 * DAY_H,
    source: "critical thermal minima of tropical reef fish 13 to 19, by acclimation",
  },
  {
    ...convention,
    groups: ["seahorses", "invertebrates"],
    stressor: "cold",
    threshold: 18,
    harmIs: "below",
    points: [
      [12, 1],
      [16, 100],
    ],
    factor: 5,
    repairHours: 2 * DAY_H,
    source: "set one and a half degrees under reef fish",
  },
  {
    ...published,
    groups: CORALS,
    stressor: "cold",
    threshold: 19,
    harmIs: "below",
    points: [
      [12, 9],
      [14, 36],
      [16, 150],
    ],
    factor: 4,
    repairHours: 20 * DAY_H,
    source: "acute cold experiments and the Florida event of 2010 (days under 16)",
  },
  {
    ...published,
    groups: ["reef-fish", "seahorses"],
    stressor: "hypoxia",
    threshold: 3.5,
    harmIs: "below",
    points: [
      [0.8, 1],
      [2, 100],
    ],
    factor: 4,
    repairHours: DAY_H,
    source: "median lethal 1.5 mg/L over days, sublethal 2.6 to 4 (Vaquer-Sunyer & Duarte 2008)",
  },
  {
    ...published,
    groups: ["active-fish"],
    stressor: "hypoxia",
    threshold: 3.5,
    harmIs: "below",
    points: [
      [1.4, 1],
      [2.6, 100],
    ],
    factor: 4,
    repairHours: DAY_H,
    source:
      "as reef fish, shifted by 0.6 mg/L for planktivores and tangs (critical levels 13 to 34 % of saturation, Nilsson & Ostlund-Nilsson 2004)",
  },
  {
    ...published,
    groups: ["invertebrates"],
    stressor: "hypoxia",
    threshold: 3.5,
    harmIs: "below",
    points: [
      [1.2, 1],
      [2.6, 100],
    ],
    factor: 4,
    repairHours: DAY_H,
    source: "crustaceans: median lethal 2.4 mg/L (Vaquer-Sunyer & Duarte 2008)",
  },
  {
    ...published,
    groups: CORALS,
    stressor: "hypoxia",
    threshold: 3,
    harmIs: "below",
    points: [
      [0.8, 24],
      [2, 72],
    ],
    hoursTimes: { soft: 3, "large-polyp": 10 },
    factor: 5,
    repairHours: 3 * DAY_H,
    source: "branching: tissue lost at 2 to 4 mg/L with time (Haas et al. 2014); massive corals bore ten days at 1.25",
  },
  {
    ...convention,
    groups: FISH,
    stressor: "low-salinity",
    threshold: 14,
    harmIs: "below",
    points: [
      [8, 12],
      [12, 48],
    ],
    factor: 5,
    repairHours: 3 * DAY_H,
    source: "low-salinity treatment practice: 15 to 18 borne for weeks",
  },
  {
    ...published,
    groups: CORALS,
    stressor: "low-salinity",
    threshold: 30,
    harmIs: "below",
    points: [
      [22, 72],
      [28, 384],
    ],
    factor: 2,
    repairHours: 5 * DAY_H,
    source: "Berkelmans, Jones & Schaffelke 2012",
  },
  {
    ...convention,
    groups: ["invertebrates"],
    stressor: "low-salinity",
    threshold: 29,
    harmIs: "below",
    points: [
      [18, 3],
      [22, 12],
      [26, 72],
    ],
    factor: 5,
    repairHours: 3 * DAY_H,
    source: "animals that cannot hold their own salt; abrupt drops",
  },
  {
    ...convention,
    groups: FISH,
    stressor: "high-salinity",
    threshold: 42,
    harmIs: "above",
    points: [
      [50, 96],
      [60, 12],
    ],
    factor: 5,
    repairHours: 3 * DAY_H,
    source: "judgement; marine fish hold their own salt",
  },
  {
    ...convention,
    groups: SPINELESS,
    stressor: "high-salinity",
    threshold: 40,
    harmIs: "above",
    points: [
      [42, 240],
      [45, 48],
      [50, 12],
    ],
    factor: 4,
    repairHours: 5 * DAY_H,
    source: "range after Coles & Jokiel 1992; slope by judgement",
  },
  {
    ...convention,
    groups: EVERYONE,
    stressor: "high-ph",
    threshold: 8.6,
    harmIs: "above",
    points: [
      [9, 48],
      [9.5, 6],
      [10, 1],
    ],
    factor: 6,
    repairHours: 2 * DAY_H,
    source: "husbandry practice; data for sea animals are sparse",
  },
  {
    ...convention,
    groups: FISH,
    stressor: "low-ph",
    threshold: 7.3,
    harmIs: "below",
    points: [
      [5.8, 6],
      [6.6, 48],
    ],
    factor: 5,
    repairHours: 2 * DAY_H,
    source: "aquaculture practice with acid other than CO2 (for CO2 the stressor co2 counts, not this one)",
  },
  {
    ...published,
    groups: SPINELESS,
    stressor: "low-ph",
    threshold: 7.5,
    harmIs: "below",
    points: [
      [6.6, 48],
      [7.2, 14 * DAY_H],
    ],
    factor: 4,
    repairHours: 7 * DAY_H,
    source: "growth of calcifiers halved at pH 7.28 (Azevedo et al. 2015); steep end by judgement",
  },
  {
    ...published,
    along: "logarithm of x",
    groups: FISH,
    stressor: "ammonia",
    threshold: 0.05,
    harmIs: "above",
    points: [
      [0.1, 96 * 10 ** 2.5],
      [1, 96],
    ],
    factor: 4,
    repairHours: 2 * DAY_H,
    source: "96 h median lethal 0.09 to 3.35 mg/L in sea fish (Eddy 2005); exponent by judgement",
  },
  {
    ...convention,
    along: "logarithm of x",
    groups: SPINELESS,
    stressor: "ammonia",
    threshold: 0.02,
    harmIs: "above",
    points: [
      [0.04, 96 * 10 ** 2.5],
      [0.4, 96],
    ],
    factor: 6,
    repairHours: 3 * DAY_H,
    source: "sparse; set at 0.4 of the fish level",
  },
  {
    ...published,
    along: "logarithm of x",
    groups: FISH,
    stressor: "co2",
    threshold: 5000,
    harmIs: "above",
    points: [
      [50_000, 96],
      [100_000, 6],
    ],
    factor: 4,
    repairHours: DAY_H,
    source: "range of studies of sea fish in water rich in CO2",
  },
  {
    ...convention,
    groups: FISH,
    stressor: "emersion",
    threshold: 0.9,
    harmIs: "above",
    points: [[1, 0.15]],
    factor: 3,
    repairHours: DAY_H,
    source: "judgement: minutes, once the water is all but gone",
  },
  {
    ...convention,
    groups: CORALS,
    stressor: "emersion",
    threshold: 0.2,
    harmIs: "above",
    points: [[1, 1]],
    factor: 3,
    repairHours: 3 * DAY_H,
    source:
      "tidal flats: 1 to 3 h shaded and humid, 15 to 60 min hot and dry; the upper fifth of the depth holds no coral",
  },
  {
    ...convention,
    groups: ["invertebrates"],
    stressor: "emersion",
    threshold: 0.5,
    harmIs: "above",
    points: [[1, 1]],
    factor: 3,
    repairHours: 3 * DAY_H,
    source: "an anemone bears about an hour; most others can follow the water down",
  },
  {
    ...published,
    groups: CORALS,
    stressor: "darkness",
    threshold: 3 * DAY_H,
    harmIs: "above",
    points: [[14 * DAY_H, 11 * DAY_H]],
    factor: 3,
    repairHours: 7 * DAY_H,
    source: "reserves last 3 to 7 days, symbionts are lost in 1 to 3 weeks; median of 14 days less the first three",
  },
];

/** All tolerances, one row a group and stressor. A pair without a row is not harmed by that stressor in this model. */
export const tolerances: readonly Tolerance[] = SHARED.flatMap(({ groups, hoursTimes, ...shared }) =>
  groups.map((group) => {
    const times = hoursTimes?.[group] ?? 1;
    return { ...shared, group, points: shared.points.map(([x, hours]) => [x, hours * times] as const) };
  }),
);
