/** Circulation and devices against the water they stand in. */
import type { Building } from "../build/building.ts";
import { withArticle } from "../build/building.ts";
import type { Body, Device, DeviceKind, Flow, Site } from "../model.ts";

const DRIVES_A_CIRCULATION: readonly DeviceKind[] = ["return-pump", "wave-pump", "other"];
const NEEDS_SALT_WATER: readonly DeviceKind[] = [
  "skimmer",
  "calcium-reactor",
  "feeder",
  "doser",
  "water-change",
  "return-pump",
];

function bodyOf(site: Site, id: string | null): Body | undefined {
  return site.bodies.find((body) => body.id === id);
}

function inWords(body: Body): string {
  return body.holds.kind === "salt"
    ? `${withArticle(body.role)} of salt water`
    : `${withArticle(body.role)} of ${body.holds.kind} water`
        .replace("limewater water", "limewater")
        .replace("solution water", "a solution");
}

function checkFlow(building: Building, site: Site, flow: Flow): void {
  const complain = (key: string, code: string, message: string, hint: string): void =>
    building.complain(flow.id, key, code, message, hint);
  const from = bodyOf(site, flow.from);
  const to = bodyOf(site, flow.to);
  if (from === undefined || to === undefined) return;
  if (from.id === to.id)
    complain(
      "to",
      "flow/same",
      `${flow.id} begins and ends in ${from.id}`,
      "name the body that the water goes to, or describe a pump that stirs one body as a wave-pump",
    );
  for (const end of [from, to]) {
    if (end.system !== flow.system) {
      complain(
        "",
        "flow/other-system",
        `${end.id} belongs to the system ${end.system}, the circulation to ${flow.system}`,
        "a circulation joins bodies of one system; bodies that share water are one system",
      );
    } else if (end.holds.kind !== "salt" || end.role === "container") {
      complain(
        "",
        "flow/not-circulating",
        `${end.id} is ${inWords(end)}: what is pumped there can not come back`,
        "a circulation joins bodies of salt water; top-off, dosing and water change are devices with a 'from'",
      );
    }
  }
  const pump = site.devices.find((device) => device.id === flow.by);
  if (pump === undefined) return;
  if (!DRIVES_A_CIRCULATION.includes(pump.kind)) {
    complain(
      "by",
      "flow/not-a-pump",
      `${pump.id} is ${withArticle(pump.kind)}: it drives no circulation`,
      "name a return-pump",
    );
    return;
  }
  if (pump.in !== flow.from) {
    complain(
      "by",
      "flow/pump-elsewhere",
      `${pump.id} stands in ${pump.in}, but the circulation begins in ${flow.from}`,
      `write in: ${flow.from} at ${pump.id}, or from: ${pump.in} here`,
    );
  }
  if (pump.flowLPerH <= 0)
    complain("by", "flow/no-flow", `${pump.id} moves no water`, `write its flow, like flow: 3000 L/h`);
  if (flow.drainLPerH + flow.spareDrainLPerH < pump.flowLPerH) {
    complain(
      "drain",
      "flow/does-not-close",
      `${pump.id} brings ${pump.flowLPerH} L/h into ${flow.to}, but only ${flow.drainLPerH + flow.spareDrainLPerH} L/h can come back: it would run over in normal running`,
      "check the drain's capacity and the pump's flow",
    );
  }
}

function checkCirculation(building: Building, site: Site): void {
  for (const flow of site.flows) checkFlow(building, site, flow);
  const driven = new Map<string, string>();
  for (const flow of site.flows) {
    if (flow.by === null) continue;
    const other = driven.get(flow.by);
    if (other !== undefined) {
      const hint = "describe each branch with a pump of its own that has its share of flow and power";
      building.complain(flow.id, "by", "flow/shared-pump", `${flow.by} already drives ${other}`, hint);
    }
    driven.set(flow.by, flow.id);
  }
  for (const device of site.devices) {
    if (device.kind !== "return-pump" || driven.has(device.id) || device.spare !== null) continue;
    const hint = `add it to a circulation of ${device.system} with by: ${device.id}, or make it a wave-pump`;
    building.complain(
      device.id,
      "",
      "flow/idle-pump",
      `${device.id} is a return-pump that drives no circulation`,
      hint,
    );
  }
}

function checkDevice(building: Building, site: Site, device: Device): void {
  const complain = (key: string, code: string, message: string, hint: string): void =>
    building.complain(device.id, key, code, message, hint);
  const body = bodyOf(site, device.in);
  const source = bodyOf(site, device.from);
  if (body === undefined) return;
  if (NEEDS_SALT_WATER.includes(device.kind) && body.holds.kind !== "salt") {
    complain(
      "in",
      "device/wrong-water",
      `${device.id} is ${withArticle(device.kind)}, but ${body.id} is ${inWords(body)}`,
      "name the body of salt water that it serves",
    );
  }
  if (source !== undefined && source.id === body.id)
    complain(
      "from",
      "device/same-body",
      `${device.id} draws from ${body.id} and gives to it`,
      "from is where it draws, in is where it gives",
    );
  if (source !== undefined && device.kind === "top-off" && source.holds.kind === "salt") {
    complain(
      "from",
      "flow/one-way",
      `${device.id} would take salt water out of ${source.id}, and nothing brings it back`,
      "a top-off draws from a reservoir that holds fresh water or limewater",
    );
  }
  if (source !== undefined && device.kind === "doser" && source.holds.kind === "salt") {
    complain(
      "from",
      "flow/one-way",
      `${device.id} would take salt water out of ${source.id}, and nothing brings it back`,
      "a doser draws from a container that holds a solution",
    );
  }
  if (source !== undefined && device.kind === "water-change" && source.holds.kind !== "salt") {
    complain(
      "from",
      "device/wrong-water",
      `${device.id} would put ${source.holds.kind} water in place of salt water`,
      "a water change draws from a reservoir that holds salt",
    );
  }
  if (device.cutOutC !== null && device.ownThermostatC !== null && device.cutOutC <= device.ownThermostatC) {
    complain(
      "cut-out",
      "device/cut-out",
      `the cut-out at ${device.cutOutC} degC opens before the thermostat at ${device.ownThermostatC} degC`,
      "a cut-out lies about 2 K above the thermostat",
    );
  }
  checkFloat(device, body, complain);
}

function checkFloat(
  device: Device,
  body: Body,
  complain: (key: string, code: string, message: string, hint: string) => void,
): void {
  const float = device.ownFloat;
  if (float === null) return;
  if (float.onL >= float.offL)
    complain(
      "own-float",
      "device/float",
      `it fills below ${float.onL} L and stops at ${float.offL} L: it could never stop`,
      "fills-below must be less than stops-at",
    );
  if (float.offL > body.brimL)
    complain(
      "own-float",
      "device/float",
      `it stops at ${float.offL} L, but ${body.id} runs over at ${body.brimL} L`,
      "stops-at must be below the brim",
    );
  if (float.spareL !== null && float.spareL <= float.offL)
    complain(
      "own-float",
      "device/float",
      `the spare float at ${float.spareL} L stops it before the first one at ${float.offL} L`,
      "spare-stops-at must be more than stops-at",
    );
  if (float.spareL !== null && float.spareL > body.brimL)
    complain(
      "own-float",
      "device/float",
      `the spare float at ${float.spareL} L lies above the brim of ${body.brimL} L`,
      "spare-stops-at must be below the brim",
    );
}

export function checkWater(building: Building, site: Site): void {
  checkCirculation(building, site);
  for (const device of site.devices) checkDevice(building, site, device);
}
