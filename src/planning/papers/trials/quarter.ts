/** What is tried at least this often counts in the drills as found by its trial (src/drills/trial.ts), months. */
export const QUARTER_MONTHS = 3;
