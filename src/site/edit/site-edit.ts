/** What a person changes in a site file, said by keys and not by lines, so that it still fits when the file has moved on. */

/** A value as it is written in the file: every plain value stays the text that a person would write. */
export type WrittenValue = string | readonly WrittenValue[] | { readonly [key: string]: WrittenValue };

/** Keys from the top of the file down, e.g. ["devices", "heater-1", "power"]; numbers count entries of a list from 0. */
export type EditPath = readonly (string | number)[];

export type SiteEdit =
  /** Writes a value, in place of the old one or as the last of its block; missing blocks on the way are made. */
  | { readonly op: "set"; readonly path: EditPath; readonly value: WrittenValue }
  /** Takes a key or an entry of a list away, with what is written beside and under it; a comment above it stays. */
  | { readonly op: "remove"; readonly path: EditPath }
  /** Gives a part another name, there and wherever the file refers to it. */
  | { readonly op: "rename"; readonly from: string; readonly to: string }
  /** Takes a part out: every mention of it goes too, and whatever can not be without it. */
  | { readonly op: "take-out"; readonly part: string };
