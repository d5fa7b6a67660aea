export { ammoniaFraction, ammoniumPka, ammoniumPkaJohanssonWedborg80 } from "./ammonia.ts";
export { nitrificationShare, nitriteOxidationShare } from "./nitrification.ts";
