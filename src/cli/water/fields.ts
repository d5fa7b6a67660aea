/** What may be said of a water, by option or in a line of JSON. The same names in both: an option has dashes. */

export interface Field {
  readonly name: string;
  /** A shorter option that does as well. */
  readonly short?: string;
  readonly words: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
}

/** The ends are those of what can be computed at all; where the laws were measured is another question, and narrower. */
export const FIELDS = [
  { name: "temperature_c", short: "temperature", words: "temperature of the water", unit: "degC", low: -5, high: 45 },
  { name: "salinity", words: "practical salinity", unit: "S", low: 0, high: 60 },
  { name: "conductivity_ms_cm", words: "conductivity, in place of salinity", unit: "mS/cm", low: 0, high: 200 },
  {
    name: "conductivity_at_c",
    words:
      "temperature that the conductivity is stated for, if not the water's own (25 on most meters that compensate)",
    unit: "degC",
    low: -5,
    high: 45,
  },
  {
    name: "conductivity_ratio",
    words: "conductivity over that of S 35 at 15 degC, in place of salinity",
    unit: "ratio",
    low: 0,
    high: 4,
  },
  {
    name: "specific_gravity",
    words: "density over that of pure water, both at the reference temperature, in place of salinity",
    unit: "sg",
    low: 1,
    high: 1.06,
  },
  {
    name: "specific_gravity_reference_c",
    words: "reference temperature of the specific gravity; 25 if not given, 20 on some instruments",
    unit: "degC",
    low: 0,
    high: 40,
  },
  {
    name: "alkalinity_umol_kg",
    short: "alkalinity",
    words: "total alkalinity, borate included",
    unit: "umol/kg",
    low: -50_000,
    high: 50_000,
  },
  {
    name: "alkalinity_dkh",
    short: "dkh",
    words: "the same per litre at the water's own density, as kits give it",
    unit: "dKH",
    low: -130,
    high: 130,
  },
  { name: "alkalinity_meq_l", words: "the same in milliequivalents per litre", unit: "meq/L", low: -46, high: 46 },
  { name: "dic_umol_kg", short: "dic", words: "dissolved inorganic carbon", unit: "umol/kg", low: 0, high: 500_000 },
  { name: "pco2_uatm", short: "pco2", words: "partial pressure of CO2", unit: "uatm", low: 0, high: 1_000_000 },
  { name: "ph_total", words: "pH on the total scale", unit: "pH", low: 0, high: 14 },
  { name: "ph_nbs", words: "pH on the NBS scale, as a probe in common buffers shows it", unit: "pH", low: 0, high: 14 },
  { name: "ph_free", words: "pH on the free scale", unit: "pH", low: 0, high: 14 },
  { name: "ph_sws", words: "pH on the seawater scale", unit: "pH", low: 0, high: 14 },
  {
    name: "calcium_umol_kg",
    short: "calcium",
    words: "calcium; that of the sea at this salinity if not given",
    unit: "umol/kg",
    low: 0,
    high: 1_000_000,
  },
  { name: "calcium_mg_l", words: "the same per litre, as kits give it", unit: "mg/L", low: 0, high: 40_000 },
  {
    name: "total_ammonia_umol_kg",
    words: "ammonia and ammonium together; its NH3 then counts as alkalinity",
    unit: "umol/kg",
    low: 0,
    high: 500_000,
  },
  { name: "total_ammonia_mg_n_l", words: "the same as nitrogen per litre", unit: "mg N/L", low: 0, high: 7000 },
  { name: "pressure_atm", words: "air pressure; 1 if not given", unit: "atm", low: 0.5, high: 1.5 },
] as const satisfies readonly Field[];

export type FieldName = (typeof FIELDS)[number]["name"];

/** Ways to say the same thing: at most one of each may be given. */
export const WAYS = {
  salinity: ["salinity", "conductivity_ms_cm", "conductivity_ratio", "specific_gravity"],
  alkalinity: ["alkalinity_umol_kg", "alkalinity_dkh", "alkalinity_meq_l"],
  carbon: ["dic_umol_kg"],
  "pressure of CO2": ["pco2_uatm"],
  pH: ["ph_total", "ph_nbs", "ph_free", "ph_sws"],
  calcium: ["calcium_umol_kg", "calcium_mg_l"],
  ammonia: ["total_ammonia_umol_kg", "total_ammonia_mg_n_l"],
} as const satisfies Readonly<Record<string, readonly FieldName[]>>;

/** Two of these four fix the carbonate system. */
export const PAIR = ["alkalinity", "carbon", "pressure of CO2", "pH"] as const;

/** Fields that take a word; the first is meant if none is given. */
export const WORDS = {
  borate: { uppstrom: ["uppstrom", "uppstrom-74", "u74"], lee: ["lee", "lee-10", "l10"] },
  temperature_scale: { "its-90": ["its-90"], "ipts-68": ["ipts-68"] },
} as const;

export type Borate = keyof typeof WORDS.borate;
export type TemperatureScale = keyof typeof WORDS.temperature_scale;

/** Names that someone may well write, and that do not say enough. */
export const AMBIGUOUS: Readonly<Record<string, string>> = {
  ph: "say on which scale: ph_total, ph_nbs (a probe's), ph_free or ph_sws",
  temperature: "write temperature_c, in degrees C",
  temperature_f: "write temperature_c, in degrees C",
  alkalinity: "say in which unit: alkalinity_umol_kg, alkalinity_dkh or alkalinity_meq_l",
  ta: "say in which unit: alkalinity_umol_kg, alkalinity_dkh or alkalinity_meq_l",
  dkh: "write alkalinity_dkh",
  dic: "write dic_umol_kg",
  pco2: "write pco2_uatm",
  conductivity: "write conductivity_ms_cm, at the water's own temperature or at conductivity_at_c",
  calcium: "say in which unit: calcium_umol_kg or calcium_mg_l",
  ammonia: "say in which unit: total_ammonia_umol_kg or total_ammonia_mg_n_l",
};
