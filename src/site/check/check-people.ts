/** People: whoever is to be told must be reachable, and by something that is there. */
import type { Building } from "../build/building.ts";
import type { Site } from "../model.ts";

function checkReach(building: Building, site: Site): void {
  const told = new Set([...site.ladder.map((step) => step.person), ...(site.silenceWatch?.tells ?? [])]);
  const siren = site.hubs.some((hub) => hub.siren) || site.devices.some((device) => device.kind === "siren");
  for (const person of site.people) {
    const place = building.placeOf(person.id);
    const where = `${person.id}.reached-by`;
    if (told.has(person.id) && person.reachedBy.length === 0) {
      building.report.error(
        place,
        where,
        "person/unreachable",
        `${person.id} is to be told, but nothing reaches them`,
        "write reached-by: [push, call], or take them out of the ladder",
      );
    }
    if (person.reachedBy.includes("siren") && !siren) {
      building.report.error(
        place,
        where,
        "person/no-siren",
        `${person.id} is reached by a siren, but there is none`,
        "write siren: yes at a hub, add a device of kind siren, or take siren out here",
      );
    }
  }
}

function checkAbsences(building: Building, site: Site): void {
  for (const circumstance of site.circumstances) {
    const ids = circumstance.away.map((absence) => absence.person);
    const place = building.placeOf(circumstance.id);
    if (circumstance.closed && circumstance.horizonDays < 1) {
      building.report.error(
        place,
        `${circumstance.id}.horizon`,
        "circumstance/short",
        "a closed building is followed for at least a day",
        "write horizon: 7 days",
      );
    }
    if (new Set(ids).size !== ids.length) {
      building.report.error(
        place,
        `${circumstance.id}.away`,
        "circumstance/twice",
        "someone is away twice",
        "name each person once",
      );
    }
  }
}

export function checkPeople(building: Building, site: Site): void {
  checkReach(building, site);
  checkAbsences(building, site);
}
