export { nernstSlopeMv } from "./electrode.ts";
