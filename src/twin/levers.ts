/**
 * Levers: the numbers by which a fault (or a person's act) bends the twin. Every part has the levers of its kind, each
 * with the value that means "as built". Nothing else in the twin knows about faults.
 */
/** Lever names and neutral values by kind of part. */
export const LEVERS = {
  device: {
    /** 1: makes nothing and draws nothing (broken, unplugged). */
    dead: 0,
    /** 1: motor hums and draws power but moves nothing. */
    idle: 0,
    /** 1: own thermostat or timer welded on; -1: never calls. */
    thermostat: 0,
    /** 1: hub's relay welded on; -1: never closes. */
    socket: 0,
    /** Share of the rated effect (flow, heat, light, dose). */
    output: 1,
    /** Change per day of that share (fouling, fading). */
    outputPerDay: 0,
    /** Degrees by which the own set point has moved. */
    setPointC: 0,
    /** Leakage to earth, mA, while it is plugged in and powered. */
    leakMA: 0,
    /** 1: own float reads low for ever (fills); -1: reads full for ever. */
    float: 0,
    /** 1: its second float is seized. */
    spareFloat: 0,
    /** 1: its run limit is not kept. */
    runLimit: 0,
    /** 1: its independent cut-out does not open. */
    cutOut: 0,
    /** L/h that run through it by gravity whether or not it runs. */
    siphonLPerH: 0,
    /** 1: plugged past its hub: always has power. */
    direct: 0,
    /** Hours by which its clock is off. */
    clockH: 0,
    /** 1: schedule replaced by always; -1: by never. */
    schedule: 0,
    /** 1: the water it collects runs to waste (skimmer cup over, drain valve open), L/h. */
    wasteLPerH: 0,
    /** Strength of what it delivers, as a share of the label. */
    strength: 1,
    /** 1: does not start again once it has stopped. */
    noRestart: 0,
    /** Gas valve of a reactor stuck open: 1. */
    gasOpen: 0,
  },
  sensor: {
    offset: 0,
    offsetPerDay: 0,
    /** A value it shows whatever the water; NaN = none. */
    fixed: Number.NaN,
    /** 1: holds its last reading and repeats it. */
    frozen: 0,
    /** 1: says nothing. */
    silent: 0,
    /** 1: hangs in the air of the room. */
    dry: 0,
    noiseFactor: 1,
  },
  flow: {
    /** Share of the drain's capacity that is free. */
    drain: 1,
    spareDrain: 1,
    /** 1: check valve does not hold. */
    checkValve: 0,
    /** 1: siphon-break hole plugged. */
    siphonBreak: 0,
    /** Share of the pumped water that goes to the floor. */
    hoseOff: 0,
    /** 1: valve shut. */
    shut: 0,
  },
  body: {
    /** Leak to the floor at normal level, L/h. */
    leakLPerH: 0,
    /** Share of the normal volume at which that leak stops. */
    leakStopsAt: 0,
    /** Extra oxygen demand, as a multiple of normal life. */
    demand: 1,
    /** Share of the filter bacteria that work. */
    filter: 1,
    /** Share of the calcifying life that works. */
    calcify: 1,
    /** Sunlight on the tank, W. */
    sunW: 0,
    /** Air brought in by hand or by a borrowed pump, as kg of water saturated an hour. */
    aerateKgH: 0,
    /** CO2 bubbled in, mol/h. */
    carbonDioxideMolH: 0,
  },
  circuit: { /** 1: its protection is open. */ open: 0, /** mA leaking from the wiring itself. */ leakMA: 0 },
  mains: { /** 1: no mains. */ down: 0, /** 1: voltage too low to start motors. */ sag: 0 },
  battery: { /** Share of its label capacity. */ capacity: 1, /** 1: does not take over. */ noTakeover: 0 },
  link: { down: 0 },
  hub: {
    /** 1: hangs: outputs as they were, says nothing. */ hung: 0,
    /** 1: no power inside. */ dead: 0,
    /** 1: sends no notices. */ muted: 0,
    /** 1: rules lost. */ blank: 0,
    /** s added to its clock. */ clockS: 0,
  },
  rule: { /** 1: never fires. */ off: 0 },
  person: { /** 1: cannot be reached. */ unreachable: 0, /** 1: does not know what to do. */ unsure: 0 },
  room: { heatingOff: 0, coolingOff: 0, outsideK: 0, co2Ppm: 0, /** W of heat */ heatW: 0 },
  system: {
    /** 1: no watch outside hears silence. */ silenceWatchDead: 0,
    /** 1: the message service is down. */ serviceDown: 0,
  },
} as const;

export type LeverKind = keyof typeof LEVERS;
export type LeverName<K extends LeverKind> = keyof (typeof LEVERS)[K] & string;

/** The id under which the levers of the whole site stand. */
export const SITE_LEVERS = "*";

type Offsets<K extends LeverKind> = { readonly [N in LeverName<K>]: number };

function offsetsOf<K extends LeverKind>(kind: K): Offsets<K> {
  return Object.fromEntries(Object.keys(LEVERS[kind]).map((name, place) => [name, place])) as Offsets<K>;
}

/** Place of each lever after its part's base: `levers[base.device[d] + AT.device.output]`. */
export const AT: { readonly [K in LeverKind]: Offsets<K> } = {
  device: offsetsOf("device"),
  sensor: offsetsOf("sensor"),
  flow: offsetsOf("flow"),
  body: offsetsOf("body"),
  circuit: offsetsOf("circuit"),
  mains: offsetsOf("mains"),
  battery: offsetsOf("battery"),
  link: offsetsOf("link"),
  hub: offsetsOf("hub"),
  rule: offsetsOf("rule"),
  person: offsetsOf("person"),
  room: offsetsOf("room"),
  system: offsetsOf("system"),
};

/** Addresses of all levers of a site and their neutral values. */
export interface LeverTable {
  /** `part:lever` to place. */
  readonly index: ReadonlyMap<string, number>;
  /** First lever of each part, by kind and place in the site. */
  readonly base: { readonly [K in LeverKind]: Int32Array };
  readonly neutral: Float64Array;
}

export function leverKey(part: string, name: string): string {
  return `${part}:${name}`;
}

/** Lays out the levers of the given parts one after the other. */
export function layLevers(parts: { readonly [K in LeverKind]: readonly string[] }): LeverTable {
  const index = new Map<string, number>();
  const neutral: number[] = [];
  const lay = (kind: LeverKind): Int32Array =>
    Int32Array.from(parts[kind], (id) => {
      const start = neutral.length;
      for (const [name, value] of Object.entries(LEVERS[kind])) {
        index.set(leverKey(id, name), neutral.length);
        neutral.push(value);
      }
      return start;
    });
  const base = Object.fromEntries((Object.keys(LEVERS) as LeverKind[]).map((kind) => [kind, lay(kind)]));
  return { index, base: base as LeverTable["base"], neutral: Float64Array.from(neutral) };
}
