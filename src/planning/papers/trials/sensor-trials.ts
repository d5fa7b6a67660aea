/** A trial for each sensor: beside a reference of another kind, or moved by hand where it is a contact. */
import type { Comparison, Quantity, Sensor, Site } from "../../../site/index.ts";
import { CAUTION } from "../cautions.ts";
import type { Trial } from "../types.ts";
import { unitOf } from "../words.ts";
import { bringAbout } from "./bring-about.ts";
import { QUARTER_MONTHS } from "./quarter.ts";

/** How near a reading must come, in the unit of the quantity: what a good hand-held reference can tell apart. */
const REFERENCES: Partial<Readonly<Record<Quantity, { readonly by: string; readonly within: number }>>> = {
  temperature: { by: "a second thermometer in the water beside it", within: 0.3 },
  ph: { by: "fresh calibration liquids of two values, in cups", within: 0.1 },
  salinity: { by: "a calibrated refractometer or a standard liquid, in a cup", within: 0.5 },
  oxygen: { by: "moist air in a closed jar, where it must read full saturation", within: 0.5 },
  alkalinity: { by: "a hand test of the same water", within: 0.5 },
  orp: { by: "a standard liquid, in a cup", within: 30 },
  "air-temperature": { by: "a second thermometer beside it", within: 0.5 },
  "air-co2": { by: "outdoor air, where it must read about 420 ppm", within: 75 },
};

const CONTACTS: Partial<Readonly<Record<Quantity, Comparison>>> = {
  leak: { op: "wet" },
  mains: { op: "absent" },
};

export function sensorTrials(site: Site): readonly Trial[] {
  return site.sensors.map((sensor) => {
    const readsS = site.hubs.find(({ id }) => id === sensor.hub)?.readsEveryS ?? 0;
    return {
      id: `${sensor.id}.reads-true`,
      part: sensor.id,
      ...trialOf(site, sensor),
      withinS: sensor.lagS + readsS + sensor.everyH * 3600,
      everyMonths: QUARTER_MONTHS,
      renews: { of: "sensor", key: "testedMonths" },
    };
  });
}

type Told = Pick<Trial, "title" | "steps" | "must" | "putBack" | "caution">;

function trialOf(site: Site, sensor: Sensor): Told {
  const unit = unitOf(site)(sensor.id);
  const contact = CONTACTS[sensor.measures];
  if (contact !== undefined) {
    const { steps, putBack, caution } = bringAbout(site, sensor, contact);
    return {
      title: `Sensor ${sensor.id} speaks when it should`,
      steps,
      must: [
        `${sensor.hub ?? sensor.id} shows that ${sensor.id} is ${contact.op}, and that it no longer is when all is put back.`,
      ],
      putBack,
      caution,
    };
  }
  switch (sensor.measures) {
    case "float":
      return {
        title: `Float ${sensor.id} moves and is seen`,
        steps: [`With a plastic rod push the float of ${sensor.id} up, wait, and then push it down.`],
        must: [`${sensor.hub ?? sensor.id} shows it wet when it is up and dry when it is down.`],
        putBack: "Let the float go and see that it moves freely.",
        caution: CAUTION.rod,
      };
    case "level":
      return {
        title: `Sensor ${sensor.id} knows the level`,
        steps: [`Measure the height of the water in ${sensor.at} with a rule and work out its litres.`],
        must: [`${sensor.id} reads the same to a twentieth of the vessel.`],
        putBack: "Nothing was moved.",
        caution: null,
      };
    case "flow":
      return {
        title: `Sensor ${sensor.id} sees the water move`,
        steps: [`Note what ${sensor.id} reads, unplug ${sensor.at} for a minute, and plug it in again.`],
        must: [`${sensor.id} falls to nothing and comes back to within a fifth of what it read.`],
        putBack: `See that ${sensor.at} runs.`,
        caution: CAUTION.plug,
      };
    case "power":
      return {
        title: `Sensor ${sensor.id} sees the load`,
        steps: [`Read a plug-in power meter beside ${sensor.id} while ${sensor.at} runs.`],
        must: [`Both agree to within a fifth.`],
        putBack: "Take the meter away.",
        caution: CAUTION.plug,
      };
    case "light":
      return {
        title: `Sensor ${sensor.id} sees the light`,
        steps: [`Note what ${sensor.id} reads with the lamps on, cover it with a dark cloth, and uncover it.`],
        must: [`${sensor.id} falls to nothing under the cloth and comes back to within a tenth of what it read.`],
        putBack: "Take the cloth away.",
        caution: null,
      };
    default: {
      const { by, within } = REFERENCES[sensor.measures] ?? { by: "a reference of another kind", within: 0 };
      const inLiquid = sensor.measures === "ph" || sensor.measures === "orp" || sensor.measures === "salinity";
      return {
        title: `Sensor ${sensor.id} reads true`,
        steps: [`Compare ${sensor.id} with ${by}.`],
        must: [`It is not more than ${within}${unit === "" ? "" : ` ${unit}`} off.`],
        putBack: `Leave ${sensor.id} where it was, and calibrate or replace it if it is off.`,
        caution: inLiquid ? CAUTION.solution : null,
      };
    }
  }
}
