import type { Device } from "../../server/contract/index.ts";

/** Size of the symbol of each kind of part, px. */
export function symbolSize(kind: Device["kind"] | "sensor"): { readonly width: number; readonly height: number } {
  switch (kind) {
    case "light":
      return { width: 60, height: 7 };
    case "heater":
      return { width: 10, height: 46 };
    case "skimmer":
    case "calcium-reactor":
      return { width: 24, height: 46 };
    case "sensor":
      return { width: 12, height: 16 };
    case "doser":
    case "top-off":
    case "water-change":
    case "refill-valve":
      return { width: 14, height: 14 };
    case "chiller":
    case "steriliser":
      return { width: 24, height: 30 };
    default:
      return { width: 20, height: 20 };
  }
}
