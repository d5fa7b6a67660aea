/** The fixed words of the site file, each set in the order in which the reference page shows it. */
import type { BodyRole, Channel, ClimateName, CoralKind, DeviceKind, Quantity, Skill } from "../model.ts";

export const CLIMATES = [
  "temperate-coast",
  "temperate-inland",
  "continental",
  "subtropical",
  "tropical",
  "desert",
] as const satisfies readonly ClimateName[];
export const ROLES = [
  "display",
  "sump",
  "refugium",
  "frag",
  "reservoir",
  "container",
] as const satisfies readonly BodyRole[];
export const CORALS = ["soft", "large-polyp", "small-polyp", "mixed"] as const satisfies readonly CoralKind[];
export const FISH_GROUPS = ["reef-fish", "active-fish", "seahorses"] as const;
export const DEVICE_KINDS = [
  "heater",
  "chiller",
  "fan",
  "return-pump",
  "wave-pump",
  "air-pump",
  "skimmer",
  "light",
  "doser",
  "top-off",
  "refill-valve",
  "feeder",
  "calcium-reactor",
  "water-change",
  "steriliser",
  "siren",
  "other",
] as const satisfies readonly DeviceKind[];
export const QUANTITIES = [
  "temperature",
  "ph",
  "salinity",
  "oxygen",
  "alkalinity",
  "orp",
  "level",
  "float",
  "flow",
  "power",
  "leak",
  "mains",
  "air-temperature",
  "air-co2",
  "light",
] as const satisfies readonly Quantity[];
export const CHANNELS = ["push", "text", "call", "siren", "mail"] as const satisfies readonly Channel[];
export const SKILLS = [
  "everything",
  "unplug",
  "reset",
  "top-off",
  "refill",
  "repair",
  "feed",
  "mop",
  "water-change",
  "start-generator",
  "call keeper",
] as const satisfies readonly Skill[];
export const SOLUTIONS = ["alkalinity", "calcium", "magnesium", "carbon", "other"] as const;
export const SOLUTION_SALTS = [
  "bicarbonate",
  "carbonate",
  "hydroxide",
  "calcium-chloride",
  "magnesium-chloride",
  "ethanol",
  "none",
] as const;
