/** All fault modes, the faults of a site, and a fault by its name. */
import { didYouMean, nearest } from "../../foundation/index.ts";
import { partsOfSite, type Site } from "../../site/index.ts";
import { SITE_LEVERS } from "../../twin/index.ts";
import { circulationModes } from "./circulation.ts";
import { dosingModes } from "./dosing.ts";
import { environmentModes } from "./environment.ts";
import { type Fault, type FaultMode, faultId } from "./fault.ts";
import { feedingModes } from "./feeding.ts";
import { filtrationModes } from "./filtration.ts";
import { gasModes } from "./gas.ts";
import { heatModes } from "./heat.ts";
import { lightModes } from "./light.ts";
import { livestockModes } from "./livestock.ts";
import { networkModes } from "./network.ts";
import { MAINS } from "./parts.ts";
import { peopleModes } from "./people.ts";
import { plumbingModes } from "./plumbing.ts";
import { powerModes } from "./power.ts";
import { sensingModes } from "./sensing.ts";
import { topOffModes } from "./top-off.ts";

/** In the order of the groups; the same mode name may come again for other parts. */
export const faultModes: readonly FaultMode[] = [
  ...heatModes,
  ...circulationModes,
  ...topOffModes,
  ...dosingModes,
  ...gasModes,
  ...lightModes,
  ...feedingModes,
  ...filtrationModes,
  ...plumbingModes,
  ...sensingModes,
  ...powerModes,
  ...networkModes,
  ...peopleModes,
  ...livestockModes,
  ...environmentModes,
];

const known = new WeakMap<Site, readonly Fault[]>();

/** Every mode on every part that it can strike, in the order of the modes and then of the site. */
export function faultsOf(site: Site): readonly Fault[] {
  const before = known.get(site);
  if (before !== undefined) return before;
  const faults = faultModes.flatMap((mode) => mode.parts(site).map((part) => ({ part, mode })));
  known.set(site, faults);
  return faults;
}

/** What is wrong with the name of a fault, and what to write instead. */
export interface NoFault {
  readonly error: string;
  readonly hint: string;
}

/** The fault that is written `part.mode`, like `heater-1.stays-on`. */
export function findFault(site: Site, written: string): Fault | NoFault {
  const faults = faultsOf(site);
  const exact = faults.find((fault) => faultId(fault) === written);
  if (exact !== undefined) return exact;
  const dot = written.lastIndexOf(".");
  const part = dot < 0 ? written : written.slice(0, dot);
  const mode = dot < 0 ? "" : written.slice(dot + 1);
  const modes = faults.filter((fault) => fault.part === part).map((fault) => fault.mode.mode);
  if (modes.length > 0) {
    const hint =
      mode === "" ? `write one of ${modes.map((one) => `${part}.${one}`).join(", ")}` : modeHint(part, mode, modes);
    return { error: mode === "" ? `'${written}' names a part, not a fault` : `${part} cannot fail as '${mode}'`, hint };
  }
  const parts = [...new Set(faults.map((fault) => fault.part))];
  if (isPart(site, part))
    return { error: `no fault of ${part} is known`, hint: "its neighbours in the site may have some" };
  const close = nearest(part, parts);
  const whole = close === null ? undefined : faults.find((fault) => fault.part === close && fault.mode.mode === mode);
  return {
    error: `${site.name} has no part called '${part}'`,
    hint: whole === undefined ? didYouMean(part, parts) : `did you mean '${faultId(whole)}'?`,
  };
}

function modeHint(part: string, mode: string, modes: readonly string[]): string {
  const close = nearest(mode, modes);
  return close === null ? `${part} can fail as ${modes.join(", ")}` : `did you mean '${part}.${close}'?`;
}

function isPart(site: Site, id: string): boolean {
  return id === MAINS || id === SITE_LEVERS || partsOfSite(site).some((entry) => entry.part.id === id);
}
