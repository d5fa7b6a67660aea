export { ammoniaFraction, ammoniumPka } from "./ammonia.ts";
export { nitrificationShare, nitriteOxidationShare } from "./nitrification.ts";
