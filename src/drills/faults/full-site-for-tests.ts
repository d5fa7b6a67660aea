/**
 * A place that has one of everything that can fail, for tests of the catalogue. No sensible place: two systems, the second
 * a bare tank that is dosed by hand, so that every mode finds at least one part.
 */
import { siteOf } from "../../../test/sites.ts";
import type { Site } from "../../site/index.ts";

const POWER_WITH_GENERATOR = `
    cells: { energy: 60 Wh, power: 20 W, on: strip, feeds: [ spare-air, router ], last-tried: 2 months }
    generator: { kind: generator, energy: 8 kWh, power: 1500 W, feeds: [ return, wave ], last-tried: 14 months }`;
const POWER_WITHOUT = `
    cells: { energy: 60 Wh, power: 20 W, on: strip, feeds: [ spare-air, router ], last-tried: 2 months }`;

const site = (batteries: string): string => `
site: One of everything
zone: Europe/London
rooms:
  hall: { air: 120 m3, cools-to: 26 degC }
power:
  circuits:
    board: { limit: 63 A, trips-on-leak: none }
    ring: { on: board, limit: 16 A, trips-on-leak: 30 mA, stays-open-after-cut: yes }
    strip: { on: ring, limit: 13 A, trips-on-leak: none }
  batteries:${batteries}
links:
  router: { kind: local, on: ring }
  line: { kind: internet, via: router }
  mobile: { kind: mobile }
hubs:
  hub: { on: strip, sends-over: [ line, mobile ] }
  careful-hub: { on: strip, sends-over: line, watchdog: yes }
silence-watch: { after: 20 min, tells: keeper, tested: 2 months }
systems:
  reef:
    bodies:
      display:
        volume: 400 L
        brim: 430 L
        livestock: { corals: mixed, coral-area: 0.5 m2, alkalinity-use: 0.6 dKH/d, fish: 220 g, invertebrates: yes }
        rock: 40 kg
      plants: { role: refugium, volume: 40 L, brim: 60 L, livestock: { plants: 50 g } }
      sump: { volume: 100 L, brim: 150 L, intake: 25 L }
      fresh: { volume: 60 L, holds: fresh }
      lime: { volume: 40 L, holds: limewater }
      salt: { role: reservoir, volume: 80 L, holds: { salt: 35 ppt } }
      alkalinity-can: { volume: 5 L, holds: { solution: alkalinity, salt: bicarbonate, strength: 1 meq/mL } }
      calcium-can: { volume: 5 L, holds: { solution: calcium, strength: 1 mmol/mL } }
      carbon-can: { volume: 1 L, holds: { solution: carbon, salt: ethanol, strength: 0.05 g/mL } }
    circulation:
      - { name: up, from: sump, to: display, by: return, back-siphon: 15 L, back-siphon-unbroken: 60 L, check-valve: yes, spare-drain: 4000 L/h }
      - { name: over, from: sump, to: plants, by: feed, back-siphon: 1 L, back-siphon-unbroken: 2 L }
      - { name: through-screen, from: plants, to: sump, drain: 2000 L/h }
  bare:
    bodies:
      cube: { role: display, volume: 60 L, brim: 66 L, livestock: { corals: soft, coral-area: 0.1 m2, alkalinity-use: 0.2 dKH/d, fish: 20 g } }
devices:
  return: { kind: return-pump, in: sump, flow: 2500 L/h, on: strip, cleaned: 2 months }
  feed: { kind: return-pump, in: sump, flow: 300 L/h, on: strip, by: careful-hub }
  wave: { kind: wave-pump, in: display, on: strip }
  wave-by-hub: { kind: wave-pump, in: display, on: strip, by: hub }
  air: { kind: air-pump, in: sump, on: strip }
  spare-air: { kind: air-pump, in: display, on: strip, spare: { last-tried: 2 months } }
  skimmer: { kind: skimmer, in: sump, on: strip, by: hub }
  heater-1: { kind: heater, in: sump, power: 150 W, on: strip, own-thermostat: 25.5 degC, cut-out: 28 degC, batch: spring }
  heater-2: { kind: heater, in: sump, power: 150 W, on: strip, by: hub, own-thermostat: 25.5 degC, batch: spring }
  spare-heater: { kind: heater, in: sump, power: 150 W, on: strip, own-thermostat: 24 degC, spare: { last-tried: 14 months } }
  chiller: { kind: chiller, in: sump, on: strip, by: hub, own-thermostat: 27 degC }
  fan: { kind: fan, in: display, on: strip, own-thermostat: 27 degC }
  lamp: { kind: light, in: display, on: strip, schedule: "10:00-20:00" }
  lamp-by-hub: { kind: light, in: plants, on: strip, by: careful-hub, schedule: "20:00-06:00" }
  steriliser: { kind: steriliser, in: sump, on: strip }
  feeder: { kind: feeder, in: display, on: strip, amount: 2 g/d, holds: 20 g }
  main-top-off:
    kind: top-off
    in: sump
    from: fresh
    on: strip
    own-float: { fills-below: 98 L, stops-at: 100 L, spare-stops-at: 110 L, longest-run: 10 min }
    can-siphon: yes
    cleaned: 1 month
  lime-top-off: { kind: top-off, in: sump, from: lime, on: strip, by: hub, own-float: none }
  timed-top-off: { kind: top-off, in: cube, from: fresh, on: strip, own-float: none, schedule: "03:00-03:01" }
  refill: { kind: refill-valve, in: fresh, on: strip, own-float: { fills-below: 50 L, stops-at: 60 L } }
  alkalinity-doser: { kind: doser, in: sump, from: alkalinity-can, on: strip, amount: 120 mL/d, can-siphon: yes }
  calcium-doser: { kind: doser, in: sump, from: calcium-can, on: strip, amount: 60 mL/d }
  carbon-doser: { kind: doser, in: sump, from: carbon-can, on: strip, amount: 5 mL/d }
  night-doser: { kind: doser, in: sump, from: alkalinity-can, on: strip, by: hub, amount: 20 mL/d, schedule: "22:00-06:00" }
  change: { kind: water-change, in: sump, from: salt, on: strip, amount: 4 L/d }
  reactor: { kind: calcium-reactor, in: sump, on: strip, by: hub }
sensors:
  display-temp: { measures: temperature, in: display, type: thermistor, hub: hub }
  sump-temp: { measures: temperature, in: sump, type: digital, hub: careful-hub }
  sump-ph: { measures: ph, in: sump, hub: hub }
  sump-salinity: { measures: salinity, in: sump, hub: hub }
  sump-oxygen: { measures: oxygen, in: sump, hub: hub }
  sump-alkalinity: { measures: alkalinity, in: sump, hub: hub }
  sump-redox: { measures: orp, in: sump, hub: hub }
  sump-level: { measures: level, in: sump, hub: hub }
  high-float: { measures: float, in: display, float-at: 420 L, hub: hub, tested: 1 month }
  return-flow: { measures: flow, at: return, hub: hub }
  strip-power: { measures: power, at: strip, hub: hub }
  strip-live: { measures: mains, at: strip, hub: hub }
  floor: { measures: leak, at: hall, hub: hub, tested: 2 months }
  hall-air: { measures: air-temperature, at: hall, hub: hub }
  hall-co2: { measures: air-co2, at: hall, hub: hub }
  display-light: { measures: light, in: display, hub: hub }
  unread: { measures: temperature, in: cube, hub: hub }
rules:
  warm: { hub: hub, when: { display-temp: above 27.5 degC, for: 5 min }, do: { heater-2: off }, notice: urgent }
  warm-sump: { hub: careful-hub, when: { sump-temp: above 28 degC }, notice: urgent }
  fresh-water: { hub: hub, when: { sump-level: below 98 L }, do: { lime-top-off: on }, until: { sump-level: above 100 L } }
  too-high: { hub: hub, when: { high-float: wet }, do: { wave-by-hub: off, lime-top-off: off }, notice: urgent }
  acid: { hub: hub, when: { sump-ph: below 7.7 }, do: { reactor: off }, notice: soon }
  salt-low: { hub: hub, when: { sump-salinity: below 32 ppt }, notice: urgent }
  stuffy: { hub: hub, when: { sump-oxygen: below 5 mg/L }, notice: urgent }
  hard: { hub: hub, when: { sump-alkalinity: above 11 dKH }, notice: soon }
  rotten: { hub: hub, when: { sump-redox: below 200 mV }, notice: soon }
  still: { hub: hub, when: { return-flow: below 500 L/h, for: 5 min }, notice: urgent }
  idle-strip: { hub: hub, when: { strip-power: below 20 W, for: 5 min }, notice: urgent }
  dead-strip: { hub: hub, when: { strip-live: absent }, notice: urgent }
  wet: { hub: hub, when: { floor: wet }, notice: urgent }
  hot-hall: { hub: hub, when: { hall-air: above 32 degC }, notice: soon }
  bad-air: { hub: hub, when: { hall-co2: above 1800 ppm }, notice: soon }
  dark-noon: { hub: hub, when: { display-light: below 20 PAR }, only: "14:00-15:00", notice: soon }
people:
  keeper: { reached-by: [ push, call ], travel: 30 min, can: everything }
  neighbour: { reached-by: call, travel: 5 min, can: [ unplug, top-off, call keeper ] }
ladder: [ keeper, after 10 min neighbour ]
`;

export function fullSite(): Site {
  return siteOf(site(POWER_WITH_GENERATOR));
}

/** The same place without a generator. */
export function fullSiteWithoutGenerator(): Site {
  return siteOf(site(POWER_WITHOUT));
}
