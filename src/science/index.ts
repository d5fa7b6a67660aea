/**
 * Science: pure laws of water, gas, minerals, heat, light and life. Numbers in, numbers out; looks down on nothing, has no
 * run-time dependency, and allocates nothing where a simulator calls it in a loop. Each shelf names what it gives; every
 * law, its source and its certainty: docs/science.md.
 *
 *   biology     what animals breathe
 *   carbonate   constants, pH from any two of alkalinity, carbon, CO2 and pH, what the carbon is made of, pH scales
 *   gas         solubility of oxygen and CO2, transfer through surface and weir
 *   harm        who bears what for how long
 *   heat        evaporation, dry loss, walls
 *   hydraulics  weirs, holes, siphons
 *   light       photosynthesis
 *   minerals    calcification, precipitation, limewater, what a gram of a compound brings
 *   nutrients   ammonia's poisonous share, nitrification
 *   probe       the glass electrode
 *   ranges      where each law of water was measured
 *   units       alkalinity and concentrations in the words of the trade
 *   water       density, heat capacity, freezing, salinity, water changes
 */
export * from "./biology/index.ts";
export * from "./carbonate/index.ts";
export * from "./fitted-ranges.ts";
export * from "./gas/index.ts";
export * from "./harm/index.ts";
export * from "./heat/index.ts";
export * from "./hydraulics/index.ts";
export * from "./light/index.ts";
export * from "./minerals/index.ts";
export * from "./nutrients/index.ts";
export * from "./probe/index.ts";
export * from "./units.ts";
export * from "./water/index.ts";
