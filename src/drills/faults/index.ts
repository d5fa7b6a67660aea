/**
 * Faults: what can go wrong, as data. A mode knows the site and the levers of the twin, never rules, people or verdicts.
 * All modes with their rates, and what is not simulated: docs/faults.md.
 */
export { faultModes, faultsOf, findFault, type NoFault } from "./catalogue.ts";
export {
  type Bench,
  type Fault,
  type FaultGroup,
  type FaultMode,
  type FaultRate,
  faultId,
  type Onset,
  type Sight,
} from "./fault.ts";
