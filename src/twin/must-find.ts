/** What a checked site promises to hold. Where it does not, the mistake is ours, and is said as such. */
import { SlackwaterError } from "../foundation/index.ts";

/** A defect of the program, not of what a person wrote. */
export class DefectError extends SlackwaterError {}

/** What was looked up by an id that the site promises to have; `what` names it, "the circuit 'ring-lab'". */
export function mustFind<T>(found: T | null | undefined, what: string): T {
  if (found !== null && found !== undefined) return found;
  throw new DefectError(
    "defect/missing-part",
    `${what} is not in the site, though the site was checked`,
    "please tell us, with the site file",
  );
}
