/**
 * How wide the letters of the app's typeface are, in thousandths of the size of type: measured once in a browser, so that a
 * picture can be laid out, and tested, without one. Figures all take the room of the widest, as tabular figures do.
 */
const WIDTHS: Readonly<Record<string, number>> = {
  " ": 280,
  "!": 286,
  "'": 160,
  "(": 299,
  ")": 299,
  "+": 606,
  ",": 210,
  "-": 362,
  ".": 210,
  "/": 387,
  ":": 210,
  "?": 480,
  A: 626,
  B: 613,
  C: 645,
  D: 669,
  E: 569,
  F: 552,
  G: 694,
  H: 694,
  I: 392,
  J: 512,
  K: 631,
  L: 541,
  M: 824,
  N: 693,
  O: 714,
  P: 592,
  Q: 724,
  R: 614,
  S: 592,
  T: 558,
  U: 690,
  V: 593,
  W: 856,
  X: 623,
  Y: 575,
  Z: 607,
  _: 372,
  a: 525,
  b: 566,
  c: 485,
  d: 564,
  e: 538,
  f: 314,
  g: 558,
  h: 550,
  i: 252,
  j: 245,
  k: 492,
  l: 262,
  m: 845,
  n: 550,
  o: 548,
  p: 566,
  q: 574,
  r: 349,
  s: 471,
  t: 326,
  u: 540,
  v: 461,
  w: 684,
  x: 481,
  y: 449,
  z: 460,
  "\u00a0": 280,
  "\u2009": 140,
  "\u2212": 606,
  "\u2026": 670,
  "\u00b0": 352,
  "\u00b2": 382,
  "\u00b3": 383,
};

const FIGURE = 648;
/** Letters that are not in the table: as wide as a wide one. */
const OTHER = 700;

/** Width of a text in its size of type: 1 for a square. */
export function widthInEms(text: string): number {
  let sum = 0;
  for (const letter of text) sum += letter >= "0" && letter <= "9" ? FIGURE : (WIDTHS[letter] ?? OTHER);
  return sum / 1000;
}
