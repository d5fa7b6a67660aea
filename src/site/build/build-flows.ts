/** Circulation, from what was written of it. */

import type { SYSTEM_KEYS } from "../keys/bodies.ts";
import { FLOW_KEYS } from "../keys/bodies.ts";
import type { Body, Device, Flow } from "../model.ts";
import type { Written, WrittenPart } from "../shape/fields.ts";
import type { Found } from "../shape/reader.ts";
import type { Building } from "./building.ts";
import { rounded, takerFor } from "./building.ts";
import { usualWeirHeadL } from "./usual-sizes.ts";

type Keys = typeof FLOW_KEYS;

/** The siphon-break hole lies about 2 cm under the water, the nozzle of the return about 12 cm. */
const HOLE_DEPTH_M = 0.02;
const NOZZLE_BELOW_HOLE_M = 0.1;
const PIPE_L = 3;

/** The id under which a circulation is entered; written or made from its ends. */
export function flowId(written: Written<Keys>): string | null {
  if (written.name !== undefined) return written.name.value;
  if (written.from === undefined || written.to === undefined) return null;
  return `${written.from.value}-to-${written.to.value}`;
}

function buildFlow(
  building: Building,
  id: string,
  system: string,
  found: Found<Written<Keys>>,
  bodies: readonly Body[],
  devices: readonly Device[],
): Flow | null {
  const written = found.value;
  if (written.from === undefined || written.to === undefined) return null;
  const known = [
    building.refers(written.from.value, written.from.place, ["body"], `${id}.from`),
    building.refers(written.to.value, written.to.place, ["body"], `${id}.to`),
  ];
  const take = takerFor(building, id, found.place.line, FLOW_KEYS, written);
  const by = take("by", null);
  if (by !== null && written.by !== undefined)
    known.push(building.refers(by, written.by.place, ["device"], `${id}.by`));
  const to = bodies.find((body) => body.id === written.to?.value);
  if (known.includes(false) || to === undefined) return null;
  const flowLPerH = devices.find((device) => device.id === by)?.flowLPerH ?? 0;
  const pumped = by !== null;
  return {
    id,
    system,
    from: written.from.value,
    to: to.id,
    by,
    backSiphonL: pumped ? take("back-siphon", rounded(1000 * HOLE_DEPTH_M * to.surfaceM2 + PIPE_L, 1)) : 0,
    backSiphonUnbrokenL: pumped
      ? take("back-siphon-unbroken", rounded(1000 * NOZZLE_BELOW_HOLE_M * to.surfaceM2, 1))
      : 0,
    checkValve: take("check-valve", false),
    drainLPerH: pumped ? take("drain", rounded(1.5 * flowLPerH, 0)) : (written.drain?.value ?? 0),
    spareDrainLPerH: pumped ? take("spare-drain", 0) : 0,
    weirHeadL: pumped ? take("weir-head", usualWeirHeadL(flowLPerH, to.surfaceM2)) : 0,
    dropM: pumped ? take("drop", 0.2) : 0,
    testedMonths: pumped ? take("tested", null) : null,
  };
}

export function buildFlows(
  building: Building,
  systems: readonly WrittenPart<typeof SYSTEM_KEYS>[],
  bodies: readonly Body[],
  devices: readonly Device[],
): readonly Flow[] {
  return systems.flatMap((system) =>
    (system.written.circulation?.value ?? []).flatMap((found) => {
      const id = flowId(found.value);
      const flow = id === null ? null : buildFlow(building, id, system.id, found, bodies, devices);
      return flow === null ? [] : [flow];
    }),
  );
}
