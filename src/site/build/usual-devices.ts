/** Usual power, flow and heat of devices by kind and by the water they serve. Starting values of the trade. */
import type { CoralKind, DeviceKind } from "../model.ts";
import { rounded } from "./building.ts";

export interface Served {
  /** Salt water of the whole system, L. */
  readonly systemL: number;
  readonly bodyL: number;
  readonly bodySurfaceM2: number;
  /** Largest display of the system, L. */
  readonly displayL: number;
}

/** Flow when running, L/h: six turnovers an hour for a return, twelve in the tank, and so on. */
export function usualFlowLPerH(kind: DeviceKind, served: Served): number {
  switch (kind) {
    case "return-pump":
      return rounded(6 * served.displayL, 0);
    case "wave-pump":
      return rounded(12 * served.bodyL, 0);
    case "air-pump":
      return rounded(Math.min(600, Math.max(60, 0.5 * served.bodyL)), 0);
    case "skimmer":
      return rounded(1.5 * served.systemL, 0);
    case "steriliser":
      return rounded(served.systemL, 0);
    case "top-off":
    case "refill-valve":
      return 60;
    case "water-change":
      return 6;
    case "calcium-reactor":
      // At 40 dKH it then gives about 1.1 dKH a day, the use of a mixed reef.
      return rounded(0.0012 * served.systemL, 2);
    case "doser":
      return 1.8;
    default:
      return 0;
  }
}

/** Electrical power when running, W. */
export function usualPowerW(kind: DeviceKind, flowLPerH: number, served: Served): number {
  switch (kind) {
    case "heater":
      return rounded(Math.max(25, 0.8 * served.systemL), 0);
    case "chiller":
      return rounded(Math.max(80, 0.3 * served.systemL), 0);
    case "light":
      return rounded(Math.max(10, 150 * served.bodySurfaceM2), 0);
    case "return-pump":
      return rounded(0.012 * flowLPerH, 1);
    case "skimmer":
      return rounded(0.02 * flowLPerH, 1);
    case "wave-pump":
      return rounded(0.003 * flowLPerH, 1);
    case "air-pump":
      return rounded(Math.max(2, 0.03 * flowLPerH), 1);
    case "calcium-reactor":
    case "steriliser":
      return 18;
    case "fan":
    case "top-off":
    case "water-change":
      return 6;
    case "refill-valve":
      return 5;
    case "doser":
      return 3;
    case "feeder":
      return 1;
    case "siren":
      return 2;
    case "other":
      return 0;
  }
}

/** Share of the electrical power that ends as heat in the water; a chiller takes out 2.5 times what it draws. */
export const HEAT_SHARE: Readonly<Record<DeviceKind, number>> = {
  heater: 1,
  chiller: -2.5,
  fan: 0,
  "return-pump": 0.95,
  "wave-pump": 0.95,
  "air-pump": 0,
  skimmer: 0.8,
  light: 0.15,
  doser: 0,
  "top-off": 0,
  "refill-valve": 0,
  feeder: 0,
  "calcium-reactor": 0.8,
  "water-change": 0,
  steriliser: 0.8,
  siren: 0,
  other: 0,
};

const PAR_OF_CORALS: Readonly<Record<CoralKind, number>> = {
  soft: 100,
  "large-polyp": 130,
  mixed: 180,
  "small-polyp": 280,
};

export function usualPar(corals: CoralKind | null): number {
  return corals === null ? 120 : PAR_OF_CORALS[corals];
}

export const USUAL_DOSES: Readonly<Partial<Record<DeviceKind, number>>> = { doser: 12, feeder: 2, "water-change": 24 };
