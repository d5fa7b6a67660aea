/**
 * pH scales. The model works on the total scale; probes calibrated in common buffers show the NBS scale, about 0.13 higher.
 * Sources and certainty: docs/science.md#ph-scales.
 */
import { held } from "../held.ts";
import { ZERO_CELSIUS_K } from "../units.ts";
import { seawaterPerTotal, totalPerFree } from "./constants.ts";

/** pH on the total scale of a hydrogen ion in mol/kg. */
export function phTotalFromHydrogen(h: number): number {
  return -Math.log10(h);
}

/** Hydrogen ion, mol/kg, of a pH on the total scale. */
export function hydrogenFromPhTotal(phTotal: number): number {
  return 10 ** -phTotal;
}

/** pH on the free scale minus pH on the total scale: about +0.107 at 25 degrees C, S 35. */
function phFreeOffset(temperatureC: number, salinity: number): number {
  return Math.log10(totalPerFree(temperatureC, salinity));
}

/** pH on the seawater scale, which also counts hydrogen fluoride, minus pH on the total scale: about -0.013. */
function phSwsOffset(temperatureC: number, salinity: number): number {
  return -Math.log10(seawaterPerTotal(temperatureC, salinity));
}

/**
 * pH on the NBS scale minus pH on the total scale (about +0.134 at 25 degrees C, S 35), by the apparent activity coefficient
 * of Takahashi et al. 1982. Depends on the electrode: +-0.02 is usual, +-0.05 for a cheap one.
 */
export function phNbsOffset(temperatureC: number, salinity: number): number {
  const kelvin = held(temperatureC, -5, 60) + ZERO_CELSIUS_K;
  const s = held(salinity, 0, 60);
  const activity = 1.2948 - 0.002036 * kelvin + (0.0004607 - 0.000001475 * kelvin) * s * s;
  return phSwsOffset(temperatureC, salinity) - Math.log10(activity);
}

/** pH on the free scale, which counts hydrogen ion alone. */
export function phFree(phTotal: number, temperatureC: number, salinity: number): number {
  return phTotal + phFreeOffset(temperatureC, salinity);
}

/** pH on the seawater scale. */
export function phSws(phTotal: number, temperatureC: number, salinity: number): number {
  return phTotal + phSwsOffset(temperatureC, salinity);
}

/** What a probe calibrated in common buffers shows. */
export function phNbs(phTotal: number, temperatureC: number, salinity: number): number {
  return phTotal + phNbsOffset(temperatureC, salinity);
}

/** pH on the total scale behind what a probe shows. */
export function phTotalFromNbs(displayedPh: number, temperatureC: number, salinity: number): number {
  return displayedPh - phNbsOffset(temperatureC, salinity);
}

/** pH on the total scale of a pH on the free scale. */
export function phTotalFromFree(phOnFree: number, temperatureC: number, salinity: number): number {
  return phOnFree - phFreeOffset(temperatureC, salinity);
}

/** pH on the total scale of a pH on the seawater scale. */
export function phTotalFromSws(phOnSws: number, temperatureC: number, salinity: number): number {
  return phOnSws - phSwsOffset(temperatureC, salinity);
}
