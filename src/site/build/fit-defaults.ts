/**
 * Defaults that depend on what else stands there: a place is taken to be built so that it works on a normal day, unless its
 * owner writes otherwise.
 */
import type { BODY_KEYS } from "../keys/bodies.ts";
import type { Body, Circuit, Device, Flow } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import { rounded } from "./building.ts";

/** Load over rating of a circuit that nobody has described. */
const LOAD_SHARE = 0.7;
/** Room that a sump has over what runs back into it when the pump stops. */
const SPARE_SHARE = 1.05;

/** The one implied circuit carries what hangs on it, A. */
export function fitCircuits(
  circuits: readonly Circuit[],
  areImplied: boolean,
  devices: readonly Device[],
  volts: number,
): readonly Circuit[] {
  if (!areImplied) return circuits;
  const amperes = devices.reduce((sum, device) => sum + device.powerW, 0) / volts;
  return circuits.map((circuit) => ({ ...circuit, limitA: Math.max(circuit.limitA, Math.ceil(amperes / LOAD_SHARE)) }));
}

/** A sump whose brim is not written holds what runs back when its pump stops, L. */
export function fitBrims(
  parts: readonly WrittenPart<typeof BODY_KEYS>[],
  bodies: readonly Body[],
  flows: readonly Flow[],
): readonly Body[] {
  const written = new Set(parts.filter((part) => part.written.brim !== undefined).map((part) => part.id));
  return bodies.map((body) => {
    if (written.has(body.id) || body.role !== "sump") return body;
    const back = flows
      .filter((flow) => flow.from === body.id && flow.by !== null)
      .reduce((sum, flow) => sum + flow.backSiphonL + flow.weirHeadL, 0);
    return { ...body, brimL: Math.max(body.brimL, rounded((body.volumeL + back) * SPARE_SHARE, 1)) };
  });
}
