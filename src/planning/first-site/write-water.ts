/** The systems and the devices of a first site file. */
import type { Life } from "./answers.ts";
import { inline, type Marks, type Piece, piece } from "./pieces.ts";
import type { Given, Plan, TankPlan } from "./plan.ts";

const LIFE_WORDS: Readonly<Record<Life, string>> = {
  fish: "fish only",
  soft: "soft corals",
  "large-polyp": "large-polyp corals",
  "small-polyp": "small-polyp corals",
  mixed: "mixed corals",
  seahorses: "seahorses",
};

export function systemPieces(plan: Plan): readonly Piece[] {
  return [piece(0, "systems:"), ...plan.tanks.flatMap((tank) => systemOf(tank))];
}

function systemOf(tank: TankPlan): readonly Piece[] {
  const { answers } = tank;
  const salt = { temperature: tank.temperature.text };
  const fishOnly = answers.life === "fish" || answers.life === "seahorses";
  const livestock = {
    corals: fishOnly ? null : answers.life,
    fish: `${tank.fishG} g`,
    "fish-kind": answers.life === "seahorses" ? "seahorses" : null,
  };
  return [
    piece(2, `${tank.system}:`),
    piece(4, "bodies:"),
    piece(6, `${tank.display}:`, waterSaid(tank), { [tank.display]: tank.name.field, [tank.system]: tank.name.field }),
    piece(8, `volume: ${inline(tank.volume.text)}`, null, { [`${tank.display}.volume`]: tank.volume.field }),
    piece(8, `holds: ${inline(salt)}`, null, { [`${tank.display}.holds.temperature`]: tank.temperature.field }),
    piece(8, `livestock: ${inline(livestock)}`),
    ...sumpOf(tank),
    ...canOf(tank),
    ...bottlesOf(tank),
    ...(tank.sump === null
      ? []
      : [
          piece(4, "circulation:"),
          piece(
            6,
            `- ${inline({ name: tank.circulation === `${tank.sump}-to-${tank.display}` ? null : tank.circulation, from: tank.sump, to: tank.display, by: tank.returnPump })}`,
            null,
            {
              [tank.circulation]: tank.returnFlow.field,
            },
          ),
        ]),
  ];
}

/** What is taken for granted of the tank itself: more where less was said. */
function waterSaid({ called, answers, volume, temperature, fishG }: TankPlan): string {
  const net = `the ${volume.text} of ${called} are net, beside rock and sand`;
  const fish = `its fish weigh ${fishG} g together, a guess for ${LIFE_WORDS[answers.life]} in so much water`;
  return `${net}; ${temperature.isUsual ? `it is kept at ${temperature.text}, as is usual; ` : ""}${fish}.`;
}

function sumpOf(tank: TankPlan): readonly Piece[] {
  if (tank.sump === null) return [];
  return [
    piece(
      6,
      `${tank.sump}: ${inline({ volume: tank.sumpVolume.text })}`,
      tank.sumpVolume.isUsual
        ? `the sump of ${tank.called} holds ${tank.sumpVolume.text}, a fifth of its tank, which is a rule of thumb of the trade.`
        : null,
      { [`${tank.sump}.volume`]: tank.sumpVolume.field },
    ),
  ];
}

function canOf(tank: TankPlan): readonly Piece[] {
  const { topOff } = tank.answers;
  if (topOff === "by-hand") return [];
  const holds = topOff === "limewater" ? "limewater" : "fresh";
  return [
    piece(
      6,
      `${tank.topOffCan}: ${inline({ volume: tank.topOffVolume.text, holds })}`,
      tank.topOffVolume.isUsual
        ? `the top-off of ${tank.called} draws from ${tank.topOffVolume.text}, what evaporates in a warm week from water of this size.`
        : null,
      { [`${tank.topOffCan}.volume`]: tank.topOffVolume.field },
    ),
  ];
}

function bottlesOf(tank: TankPlan): readonly Piece[] {
  if (tank.answers.dosing !== "two-part") return [];
  return [
    piece(
      6,
      `${tank.alkalinityCan}: ${inline({ volume: `${tank.alkalinityBottleL} L`, holds: { solution: "alkalinity", salt: "bicarbonate", strength: "1.0 meq/mL" } })}`,
      `${tank.called} is given ${tank.alkalinityMLPerDay} mL of alkalinity a day and ${tank.calciumMLPerDay} mL of calcium, as corals of this kind usually take up, from bottles that last about six weeks.`,
    ),
    piece(
      6,
      `${tank.calciumCan}: ${inline({ volume: `${tank.calciumBottleL} L`, holds: { solution: "calcium", strength: "1.0 mmol/mL" } })}`,
    ),
  ];
}

export function devicePieces(plan: Plan): readonly Piece[] {
  const all = plan.tanks.flatMap((tank) => devicesOf(plan, tank));
  return all.length === 0 ? [] : [piece(0, "devices:"), ...all];
}

/** Which half of the place a device is plugged into, where there are two. */
type Half = "a" | "b";

/** The circuit of a device: one strip for everything, or halves so that either keeps some heat and some flow. */
export function circuitOf(plan: Plan, half: Half): string {
  if (plan.answers.plugging === "one-strip") return plan.strip;
  return half === "a" ? plan.ringA : plan.ringB;
}

function devicesOf(plan: Plan, tank: TankPlan): readonly Piece[] {
  const at = tank.sump ?? tank.display;
  const onA = circuitOf(plan, "a");
  const onB = circuitOf(plan, "b");
  const { answers } = tank;
  const device = (id: string, keys: Parameters<typeof inline>[0], assumes: string | null = null, marks: Marks = {}) =>
    piece(2, `${id}: ${inline(keys)}`, assumes, marks);
  return [
    ...heatersOf(plan, tank, at),
    ...(tank.sump === null
      ? []
      : [
          device(
            tank.returnPump,
            { kind: "return-pump", flow: tank.returnFlow.text, in: tank.sump, on: onA },
            said(
              tank.returnFlow,
              `the return of ${tank.called} brings ${tank.returnFlow.text} up to the tank, five times its water an hour, as the trade does.`,
            ),
            { [`${tank.returnPump}.flow`]: tank.returnFlow.field },
          ),
        ]),
    ...tank.wavePumps.map((id, index) =>
      device(
        id,
        { kind: "wave-pump", flow: tank.waveFlow.text, in: tank.display, on: index % 2 === 0 ? onB : onA },
        index === 0
          ? said(
              tank.waveFlow,
              `each pump in ${tank.called} moves ${tank.waveFlow.text}, by the trade's rule of thumb for ${LIFE_WORDS[answers.life]}.`,
            )
          : null,
        { [`${id}.flow`]: tank.waveFlow.field },
      ),
    ),
    ...(answers.hasSkimmer ? [device(tank.skimmer, { kind: "skimmer", in: at, on: onB })] : []),
    ...(answers.hasLight
      ? [
          device(
            tank.lamp,
            { kind: "light", in: tank.display, on: onB, schedule: tank.lightHours.text },
            said(tank.lightHours, `the light over ${tank.called} is on for ten hours, ${tank.lightHours.text}.`),
            { [`${tank.lamp}.schedule`]: tank.lightHours.field },
          ),
        ]
      : []),
    ...topOffOf(tank, at, onA),
    ...dosersOf(tank, at, onA),
    ...(plan.answers.airBattery
      ? [
          device(
            tank.air,
            { kind: "air-pump", in: tank.display, on: onB, spare: "yes" },
            `the air pump of ${tank.called} rests while the mains are there, and nobody has pulled the plug to try it.`,
          ),
        ]
      : []),
  ];
}

function said(answer: Given, sentence: string): string | null {
  return answer.isUsual ? sentence : null;
}

function heatersOf(plan: Plan, tank: TankPlan, at: string): readonly Piece[] {
  const { heaterSwitch } = tank.answers;
  const own =
    heaterSwitch === "own-thermostat"
      ? { "own-thermostat": tank.temperature.text }
      : heaterSwitch === "hub"
        ? { "own-thermostat": "none" }
        : { "own-thermostat": `${tidy(tank.temperatureC + LIMIT_ABOVE_K)} degC` };
  const hub = heaterSwitch === "own-thermostat" ? {} : { by: "hub" };
  const many = tank.heaters.length;
  return tank.heaters.map((id, index) =>
    piece(
      2,
      `${id}: ${inline({ kind: "heater", power: tank.heaterPower.text, in: at, on: circuitOf(plan, index % 2 === 0 ? "a" : "b"), ...hub, ...own })}`,
      index > 0
        ? null
        : said(
            tank.heaterPower,
            `${many === 1 ? "the heater" : `each of the ${many} heaters`} of ${tank.called} has ${tank.heaterPower.text}: together about a watt a litre, less in large tanks, which is a rule of thumb of the trade.`,
          ),
      { [`${id}.power`]: tank.heaterPower.field, [`${id}.own-thermostat`]: tank.temperature.field },
    ),
  );
}

/** The trade sets a heater's own dial 1 to 1.5 K above what the controller holds. */
const LIMIT_ABOVE_K = 1;

/** To a hundredth, so that 25.5 + 1 is written as people write it. */
export function tidy(value: number): number {
  return Math.round(value * 100) / 100;
}

function topOffOf(tank: TankPlan, at: string, on: string): readonly Piece[] {
  const { topOff, topOffSwitch } = tank.answers;
  if (topOff === "by-hand") return [];
  const byHub = topOffSwitch === "hub" ? { by: "hub", "own-float": "none" } : {};
  return [
    piece(
      2,
      `${tank.topOff}: ${inline({ kind: "top-off", in: at, from: tank.topOffCan, on, ...byHub })}`,
      `the hose of the top-off of ${tank.called} may siphon on when its pump has stopped, because nobody has said that it cannot.`,
    ),
  ];
}

function dosersOf(tank: TankPlan, at: string, on: string): readonly Piece[] {
  if (tank.answers.dosing === "reactor") {
    return [piece(2, `${tank.reactor}: ${inline({ kind: "calcium-reactor", in: at, on })}`)];
  }
  if (tank.answers.dosing !== "two-part") return [];
  const doser = (id: string, from: string, mLPerDay: number) =>
    piece(2, `${id}: ${inline({ kind: "doser", in: at, from, on, amount: `${mLPerDay} mL/d` })}`);
  return [
    doser(tank.alkalinityDoser, tank.alkalinityCan, tank.alkalinityMLPerDay),
    doser(tank.calciumDoser, tank.calciumCan, tank.calciumMLPerDay),
  ];
}
