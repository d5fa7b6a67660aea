/** The place of an incident: as described, and as one would have described it without knowing what was to come. */
import { readFileSync } from "node:fs";
import { parseDocument } from "yaml";
import { type Fault, findFault } from "../../src/drills/index.ts";
import { formatSiteError, loadSite, type Site } from "../../src/site/index.ts";
import type { Incident } from "./record.ts";

/** The site as its file describes it, with the moment of the incident among its circumstances. */
export function placeOf(incident: Incident): Site {
  return checked(readFileSync(incident.siteFile, "utf8"), incident);
}

/** The same place with the usual circumstances (day, night, away): the moment of the incident is hindsight. */
export function unknowingPlaceOf(incident: Incident): Site {
  const file = parseDocument(readFileSync(incident.siteFile, "utf8"));
  file.delete("circumstances");
  return checked(file.toString(), incident);
}

function checked(text: string, incident: Incident): Site {
  const { site, errors } = loadSite(text, `examples/incidents/${incident.name}.yaml`);
  if (site === null) throw new Error(errors.map((error) => formatSiteError(error)).join("\n"));
  return site;
}

/** The faults of the incident; one that lasts longer than ours does is made to. */
export function faultsOf(incident: Incident, site: Site): readonly Fault[] {
  return incident.faults.map((id) => {
    const found = findFault(site, id);
    if ("error" in found) throw new Error(`${incident.name}: ${found.error} (${found.hint})`);
    return incident.lasts === null ? found : { ...found, mode: { ...found.mode, lastsMin: incident.lasts } };
  });
}
