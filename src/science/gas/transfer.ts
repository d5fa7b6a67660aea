/** How fast gases cross between water and air. Sources and certainty: docs/science.md#gas-transfer. */
import { held } from "../held.ts";

/** Transfer velocity of oxygen over clean water without any pump, m/h (middle of 0.008 to 0.02). */
const STILL_M_PER_H = 0.012;
/** Over a vigorously broken surface, m/h (middle of 0.2 to 0.5). */
const BROKEN_M_PER_H = 0.32;
const LOG_SPAN = Math.log(BROKEN_M_PER_H / STILL_M_PER_H);

/**
 * Transfer velocity of oxygen, m/h, against how much the surface is stirred: 0 no pump at all (0.012), 1/3 gently circulated
 * (0.036; 0.03 to 0.06), 2/3 rippled (0.107; 0.08 to 0.20), 1 vigorously broken (0.32; 0.2 to 0.5). Equal steps multiply
 * equally. A film of scum multiplies it by 0.4, a closed hood by 0.5. The truth may lie 1.6 times off with the pumps running
 * and 3 times off with everything off. Convention ordered by reasoning; its still end is a stagnant film of 0.5 to 1 mm.
 */
export function surfaceTransferMPerH(agitation: number): number {
  return STILL_M_PER_H * Math.exp(LOG_SPAN * held(agitation, 0, 1));
}

/**
 * Transfer velocity of CO2 over that of oxygen (0.92 to 0.94 in a tank): the root of the ratio of Schmidt numbers, with the
 * seawater polynomials of Wanninkhof 2014 (-2 to 40 degrees C; held to that).
 */
export function schmidtRatioCo2(temperatureC: number): number {
  const t = held(temperatureC, -2, 40);
  const oxygen = 1920.4 + t * (-135.6 + t * (5.2122 + t * (-0.10939 + t * 0.00093777)));
  const carbonDioxide = 2116.8 + t * (-136.25 + t * (4.7353 + t * (-0.092307 + t * 0.0007555)));
  return Math.sqrt(oxygen / carbonDioxide);
}

/**
 * Share (0..1) of the oxygen deficit that water makes up in one fall over a weir of `dropM` metres (0 to 4).
 * Weir formula of Gameson's kind as published by the Water Research Laboratory and BRE, with clean water and a free fall
 * (a = b = 1).
 */
export function weirTransferShare(dropM: number, temperatureC: number): number {
  const drop = held(dropM, 0, 4);
  const deficitRatio = 1 + 0.38 * drop * (1 - 0.11 * drop) * (1 + 0.046 * temperatureC);
  return 1 - 1 / deficitRatio;
}
