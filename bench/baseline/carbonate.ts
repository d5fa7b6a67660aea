/**
 * The carbonate system as a textbook would write it, and slow: constants by the published formulas with powers of ten, pH by
 * halving. Typed anew from the papers and built otherwise than src/science, on the free scale where that one uses the total
 * scale, so that it serves as a second opinion (test/carbonate-reference.test.ts) and as what to be faster than
 * (bench/carbonate.ts). Amounts in mol per kg of seawater.
 */

/** Constants on the total scale but for KS, which is on the free scale. */
export interface TextbookConstants {
  readonly k1: number;
  readonly k2: number;
  readonly kb: number;
  readonly kw: number;
  readonly ks: number;
  readonly kf: number;
  readonly borate: number;
  readonly sulfate: number;
  readonly fluoride: number;
}

/** Temperature in degrees C, practical salinity; borate of Uppstrom 1974. */
export function textbookConstants(temperatureC: number, salinity: number): TextbookConstants {
  const chlorinity = salinity / 1.80655;
  return {
    k1: firstOfCarbonicAcid(temperatureC + 273.15, salinity),
    k2: secondOfCarbonicAcid(temperatureC + 273.15, salinity),
    kb: boricAcid(temperatureC + 273.15, salinity),
    kw: water(temperatureC + 273.15, salinity),
    ks: bisulfate(temperatureC + 273.15, salinity),
    kf: hydrogenFluoride(temperatureC + 273.15, salinity),
    borate: (0.000232 / 10.811) * chlorinity,
    sulfate: (0.14 / 96.062) * chlorinity,
    fluoride: (0.000067 / 18.998) * chlorinity,
  };
}

/** Lueker, Dickson & Keeling 2000, pK1. */
function firstOfCarbonicAcid(kelvin: number, salinity: number): number {
  const pk = 3633.86 / kelvin - 61.2172 + 9.6777 * Math.log(kelvin) - 0.011555 * salinity;
  return 10 ** -(pk + 0.0001152 * salinity ** 2);
}

/** Lueker, Dickson & Keeling 2000, pK2. */
function secondOfCarbonicAcid(kelvin: number, salinity: number): number {
  const pk = 471.78 / kelvin + 25.929 - 3.16967 * Math.log(kelvin) - 0.01781 * salinity;
  return 10 ** -(pk + 0.0001122 * salinity ** 2);
}

/** Dickson 1990. */
function boricAcid(kelvin: number, salinity: number): number {
  const half = salinity ** 0.5;
  const threeHalves = salinity ** 1.5;
  return Math.exp(
    (-8966.9 - 2890.53 * half - 77.942 * salinity + 1.728 * threeHalves - 0.0996 * salinity ** 2) / kelvin +
      148.0248 +
      137.1942 * half +
      1.62142 * salinity -
      (24.4344 + 25.085 * half + 0.2474 * salinity) * Math.log(kelvin) +
      0.053105 * half * kelvin,
  );
}

/** Dickson, Sabine & Christian 2007, after Millero 1995. */
function water(kelvin: number, salinity: number): number {
  const salting = 118.67 / kelvin - 5.977 + 1.0495 * Math.log(kelvin);
  return Math.exp(
    148.9652 - 13847.26 / kelvin - 23.6521 * Math.log(kelvin) + salting * salinity ** 0.5 - 0.01615 * salinity,
  );
}

/** Dickson 1990, free scale, in terms of ionic strength. */
function bisulfate(kelvin: number, salinity: number): number {
  const ionic = (19.924 * salinity) / (1000 - 1.005 * salinity);
  return Math.exp(
    -4276.1 / kelvin +
      141.328 -
      23.093 * Math.log(kelvin) +
      (-13856 / kelvin + 324.57 - 47.986 * Math.log(kelvin)) * ionic ** 0.5 +
      (35474 / kelvin - 771.54 + 114.723 * Math.log(kelvin)) * ionic -
      (2698 / kelvin) * ionic ** 1.5 +
      (1776 / kelvin) * ionic ** 2 +
      Math.log(1 - 0.001005 * salinity),
  );
}

/** Perez & Fraga 1987 as in Dickson, Sabine & Christian 2007, total scale. */
function hydrogenFluoride(kelvin: number, salinity: number): number {
  return Math.exp(874 / kelvin - 9.68 + 0.111 * salinity ** 0.5);
}

/** Total alkalinity by Dickson's definition (1981) at a pH on the total scale. */
export function textbookAlkalinity(k: TextbookConstants, dic: number, phTotal: number): number {
  const total = 10 ** -phTotal;
  const free = total / (1 + k.sulfate / k.ks);
  const fluorideOnFree = k.kf / (1 + k.sulfate / k.ks);
  const carbonate = dic / (1 + total / k.k2 + total ** 2 / (k.k1 * k.k2));
  const bicarbonate = (carbonate * total) / k.k2;
  const borate = k.borate / (1 + total / k.kb);
  const bisulfateIon = k.sulfate / (1 + k.ks / free);
  const acidFluoride = k.fluoride / (1 + fluorideOnFree / free);
  return bicarbonate + 2 * carbonate + borate + k.kw / total - free - bisulfateIon - acidFluoride;
}

/** pH on the total scale of water with this alkalinity and dissolved carbon, by halving from 0 to 14 down to 1e-12. */
export function textbookPh(k: TextbookConstants, alkalinity: number, dic: number): number {
  let low = 0;
  let high = 14;
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (textbookAlkalinity(k, dic, middle) < alkalinity) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
