/** True quantities by name, for pictures and programs: `display.temperature_c`, `floor.water_l`, `heater-1.on`. */
import { omegaAragonite } from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  DEVICE_COLUMNS,
  DEVICE_RUNNING,
  DIC,
  HYDROGEN,
  MG,
  NO3,
  ROOM_AIR_C,
  ROOM_CO2,
  ROOM_COLUMNS,
  ROOM_FLOOR,
} from "./columns.ts";
import { kgPerL, volumeL } from "./hydraulics.ts";
import { isStore } from "./life.ts";
import type { Model } from "./model.ts";
import { peekSensor } from "./peek.ts";
import { relativeHumidity } from "./rooms.ts";
import type { Twin } from "./state.ts";
import { alkalinityDKH, ammoniaMgNL, oxygenMgL, perKg, phTotal, salinity, temperatureC } from "./water-values.ts";

export interface Probe {
  readonly name: string;
  readonly read: (twin: Twin) => number;
}

const MG_PER_MOL = { ca: 40_078, mg: 24_305, no3: 62_005 } as const;

/** All true quantities of a site. */
export function truthProbes(model: Model): Probe[] {
  const { site } = model;
  const probes: Probe[] = [];
  site.bodies.forEach((body, place) => {
    const add = (quantity: string, read: (twin: Twin) => number) =>
      probes.push({ name: `${body.id}.${quantity}`, read });
    add("temperature_c", (twin) => temperatureC(twin, place));
    add("volume_l", (twin) => volumeL(twin, place));
    if (isStore(body)) return;
    add("salinity", (twin) => salinity(twin, place));
    add("oxygen_mg_l", (twin) => oxygenMgL(twin, place));
    add("ph_total", (twin) => phTotal(twin, place));
    add("alkalinity_dkh", (twin) => alkalinityDKH(twin, place));
    add("calcium_mg_l", (twin) => perKg(twin, place, CA) * kgPerL(twin, place) * MG_PER_MOL.ca);
    add("magnesium_mg_l", (twin) => perKg(twin, place, MG) * kgPerL(twin, place) * MG_PER_MOL.mg);
    add("ammonia_mg_n_l", (twin) => ammoniaMgNL(twin, place));
    add("nitrate_mg_l", (twin) => perKg(twin, place, NO3) * kgPerL(twin, place) * MG_PER_MOL.no3);
    add("omega_aragonite", (twin) =>
      omegaAragonite(
        twin.scratch.constants[place],
        perKg(twin, place, CA),
        perKg(twin, place, DIC),
        twin.bodies[place * BODY_COLUMNS + HYDROGEN],
      ),
    );
  });
  probes.push(...roomProbes(model));
  probes.push({ name: "floor.water_l", read: floorL });
  site.devices.forEach((device, place) => {
    probes.push({ name: `${device.id}.on`, read: (twin) => twin.devices[place * DEVICE_COLUMNS + DEVICE_RUNNING] });
  });
  return probes;
}

/** Quantities of the air of a room, as roomProbes gives them. */
export const AIR_COLUMNS = 3;

/** The air of each room: degrees C, percent of humidity, ppm of carbon dioxide. */
export function roomProbes({ site }: Model): Probe[] {
  return site.rooms.flatMap(({ id }, place) => {
    const at = place * ROOM_COLUMNS;
    return [
      { name: `${id}.air_c`, read: (twin) => twin.rooms[at + ROOM_AIR_C] },
      { name: `${id}.humidity_percent`, read: (twin) => 100 * relativeHumidity(twin, place) },
      { name: `${id}.co2_ppm`, read: (twin) => twin.rooms[at + ROOM_CO2] },
    ];
  });
}

/** Water on all floors, L. */
export function floorL(twin: Twin): number {
  let litres = 0;
  for (let at = ROOM_FLOOR; at < twin.rooms.length; at += ROOM_COLUMNS) litres += twin.rooms[at];
  return litres;
}

/** What the hubs read, by sensor; NaN = none. */
export function sensedProbes(model: Model): Probe[] {
  return model.site.sensors.map((sensor, place) => ({
    name: sensor.id,
    read: (twin: Twin) => peekSensor(twin, place),
  }));
}
