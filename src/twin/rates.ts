/** Rates of the reactions of one body in one stage, mol/h: the places of `scratch.rates`. */
export const BREATHING = 0; // O2
export const PHOTO = 1; // O2
export const SHELLS = 2; // CaCO3
export const GAS_OXYGEN = 3; // from the air
export const GAS_CARBON = 4; // from the air
export const EXCRETED = 5; // N
export const DECAYED = 6; // N
export const SKIMMED = 7; // N
export const TO_NITRITE = 8; // N
export const TO_NITRATE = 9; // N
export const NITRATE_LOST = 10; // N
export const BURNED = 11; // C
export const GROWN = 12; // C
export const TURNED = 13; // N
/** How many there are. */
export const RATES = 14;
