/**
 * Site: the one description of the place. A file in the words of keepers goes in, a checked and frozen value in stated
 * units comes out, or every error at once with its place. Reads no clock; `read-site-file.ts` alone reads a file.
 */

export type { DefaultUsed } from "./build/building.ts";
export { editSite, writtenSite } from "./edit/edit-site.ts";
export type { EditPath, SiteEdit, WrittenValue } from "./edit/site-edit.ts";
export type { Described, FieldFacts } from "./field-reference.ts";
export { FIELD_REFERENCE } from "./field-reference.ts";
export type { LoadedSite } from "./load-site.ts";
export { loadSite } from "./load-site.ts";
export { clockFor } from "./local-clocks.ts";
export type { NamedPart } from "./lookup.ts";
export { bodyById, circumstanceById, deviceById, kindOfPart, partIndex, partsOfSite, sensorById } from "./lookup.ts";
export type * from "./model.ts";
export { readSiteFile } from "./read-site-file.ts";
export { siteSchema } from "./site-schema.ts";
export type { SiteError } from "./text/site-error.ts";
export { formatSiteError } from "./text/site-error.ts";
export { LARGEST_FILE_BYTES } from "./text/yaml-tree.ts";
