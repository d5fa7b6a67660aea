/** Where each region of a twin's one array begins. */
import { STRESSORS } from "../science/index.ts";
import type { Site } from "../site/index.ts";
import {
  BATTERY_COLUMNS,
  BODY_COLUMNS,
  CLOCK_COLUMNS,
  DEVICE_COLUMNS,
  FLOW_COLUMNS,
  HUB_COLUMNS,
  ROOM_COLUMNS,
  SENSOR_COLUMNS,
} from "./columns.ts";

/** First place of each region; `rules` has one for each looker. */
export interface Layout {
  readonly clock: number;
  readonly bodies: number;
  readonly rooms: number;
  readonly devices: number;
  readonly sensors: number;
  readonly batteries: number;
  readonly circuits: number;
  readonly flows: number;
  readonly looks: number;
  readonly switchAll: number;
  readonly harm: number;
  readonly dark: number;
  readonly levers: number;
  readonly rules: readonly number[];
  readonly size: number;
}

export interface Counts {
  readonly groups: number;
  readonly levers: number;
  readonly islands: number;
  /** Size of the state of each looker's rules. */
  readonly rules: readonly number[];
}

export function layOut(site: Site, { groups, levers, islands, rules }: Counts): Layout {
  let next = 0;
  const take = (count: number) => {
    const start = next;
    next += count;
    return start;
  };
  return {
    clock: take(CLOCK_COLUMNS),
    bodies: take(site.bodies.length * BODY_COLUMNS),
    rooms: take(site.rooms.length * ROOM_COLUMNS),
    devices: take(site.devices.length * DEVICE_COLUMNS),
    sensors: take(site.sensors.length * SENSOR_COLUMNS),
    batteries: take(site.batteries.length * BATTERY_COLUMNS),
    circuits: take(site.circuits.length),
    flows: take(site.flows.length * FLOW_COLUMNS),
    looks: take(rules.length * HUB_COLUMNS),
    switchAll: take(islands),
    harm: take(groups * STRESSORS.length),
    dark: take(site.bodies.length),
    levers: take(levers),
    rules: rules.map(take),
    size: next,
  };
}
