/** The JSON Schema of a site file, for editors: completion, hints and red lines while typing. Made from the readers. */
import { SITE_KEYS } from "./keys/site-keys.ts";
import { fieldsSchema } from "./shape/fields.ts";
import type { JsonSchema } from "./shape/reader.ts";

/** Says what the form of a file is. What the words of a file mean together, only `loadSite` can tell. */
export const siteSchema: JsonSchema = {
  $schema: "https://json-schema.org/draft/2020-12/schema",
  title: "Slackwater site file",
  description: "One place with its rooms, power, network, people and systems. Reference: docs/site-file.md.",
  ...fieldsSchema(SITE_KEYS),
};
