export { photosynthesisShare } from "./photosynthesis.ts";
