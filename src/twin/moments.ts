/** How close moments may lie. */

/** Times closer than this are the same, s. */
export const SAME_S = 1e-6;
/** Shortest stretch between two stops, s. */
export const SHORTEST_S = 0.5;
