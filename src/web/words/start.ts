/** Words of the start: the conversation that ends in a first site, and the other ways to one. */
import type { FirstSiteAnswers, PersonAnswers, TankAnswers } from "../../server/contract/index.ts";

const one = (count: number, single: string, many: string): string => (count === 1 ? single : many);

export const startWords = {
  title: "A new place",
  loading: "One moment.",
  progress: (step: number, of: number, what: string) => `${step} of ${of}, ${what}`,
  next: "Next",
  back: "Back",
  again: "Begin anew",
  forget: "Forget all answers",
  usual: "as usual",
  checking: "Looking through the answers.",
  intro:
    "A few questions about what stands there. Every answer is filled in as such places usually are: change what is different, and press Next. About three minutes, and what is not asked can be written into the file later.",
  kept: "What you answer stays in this browser until the place is kept.",

  steps: [
    { what: "the place", ask: "What is the place called, and how many tanks are there?" },
    { what: "water and life", ask: "How much water is there, and what lives in it?" },
    { what: "what heats it", ask: "What heats it?" },
    { what: "what moves and feeds it", ask: "What moves the water, and what is given to it?" },
    { what: "power and watching", ask: "What is plugged into what, and what tells you?" },
    { what: "who can come", ask: "Who can come when something is wrong?" },
    { what: "what is taken for granted", ask: "This is what would be rehearsed, and what it takes for granted." },
  ],

  place: "Name of the place",
  tanks: "Tanks",
  tanksCount: (count: number) => `${count} ${one(count, "tank", "tanks")}`,
  zone: "Time zone",
  zoneNote: "Who sleeps and who is at work goes by the local clock.",

  tankName: "Name of the tank",
  volume: "Water in it",
  volumeNote: "Net of rock and sand, with its unit: 200 L, 55 gal, 0.6 m3.",
  life: "What lives in it",
  lifeOf: {
    fish: "fish only",
    soft: "soft corals",
    "large-polyp": "large-polyp corals",
    "small-polyp": "small-polyp corals",
    mixed: "mixed corals",
    seahorses: "seahorses",
  } satisfies Record<TankAnswers["life"], string>,
  temperature: "Kept at",
  hasSump: "There is a sump under it",
  sumpVolume: "Water in the sump",

  heaters: "Heaters",
  heatersCount: (count: number) => (count === 0 ? "none" : String(count)),
  heaterPower: "Power of each",
  heaterSwitch: "What switches them",
  heaterSwitchOf: {
    "own-thermostat": "their own thermostat",
    hub: "a hub",
    "hub-and-own-thermostat": "a hub, with their own thermostat a little above",
  } satisfies Record<TankAnswers["heaterSwitch"], string>,
  caution: {
    heat: "Switch off and unplug every device in the water before your hand goes in.",
    power:
      "Have sockets and circuits fitted by a licensed electrician, and run every socket of a tank through leakage protection.",
    limewater: "Limewater is caustic: wear goggles and gloves when you mix it.",
  },

  returnFlow: "Flow of the return pump",
  returnNote: "What really comes up to the tank, after height and fittings.",
  wavePumps: "Pumps in the tank",
  waveFlow: "Flow of each",
  hasSkimmer: "A skimmer",
  hasLight: "A light over it",
  lightHours: "Light is on",
  topOff: "What replaces evaporated water",
  topOffOf: {
    fresh: "fresh water, by itself",
    limewater: "limewater, by itself",
    "by-hand": "somebody, by hand",
  } satisfies Record<TankAnswers["topOff"], string>,
  topOffVolume: "Water in its reservoir when full",
  topOffSwitch: "What decides when it runs",
  topOffSwitchOf: { "own-float": "its own float", hub: "a hub, by a float" } satisfies Record<
    TankAnswers["topOffSwitch"],
    string
  >,
  dosing: "What doses alkalinity and calcium",
  dosingOf: {
    nothing: "nothing, or water changes",
    "two-part": "two dosing pumps with a bottle each",
    reactor: "a calcium reactor",
  } satisfies Record<TankAnswers["dosing"], string>,

  plugging: "Plugs",
  pluggingOf: {
    "one-strip": "all on one socket strip",
    "two-circuits": "shared between two circuits",
  } satisfies Record<FirstSiteAnswers["plugging"], string>,
  mains: "Mains",
  batteries: "Batteries",
  airBattery: "An air pump at each tank starts from a battery when the mains fail",
  routerBattery: "A battery carries the router and the hub",
  watching: "What measures",
  hub: "A hub with a temperature probe in each tank",
  leakSensor: "A leak sensor on the floor",
  silenceWatch: "Something outside the house notices when the hub falls silent",
  messages: "How a message leaves",
  messagesOf: {
    router: "over the router and its line",
    "router-and-mobile": "over the line, or by mobile network when it is down",
    beep: "not at all, it beeps on the spot",
  } satisfies Record<FirstSiteAnswers["messages"], string>,

  person: (number: number) => (number === 1 ? "The keeper" : `Person ${number}`),
  personName: "Name",
  reachedBy: "Reached by",
  reachOf: { push: "a silent message", text: "a text", call: "a call that rings" } satisfies Record<
    PersonAnswers["reachedBy"][number],
    string
  >,
  reachNote: "Only a call wakes a sleeper.",
  whereabouts: "Usually",
  whereaboutsOf: {
    "lives-here": "lives with the tanks",
    "works-here": "works here on weekdays",
    elsewhere: "is elsewhere",
  } satisfies Record<PersonAnswers["whereabouts"], string>,
  asleep: "Asleep",
  travel: "Way to the tanks",
  can: "Can do",
  canOf: {
    everything: "everything",
    simple: "unplug, top off, mop up, call",
    call: "call somebody, no more",
  } satisfies Record<PersonAnswers["can"], string>,
  addPerson: "Add a person",
  removePerson: (name: string) => `Take out ${name}`,
  away: "Longest time that the keeper is usually away",

  rehearse: "Rehearse this place",
  keeping: "Keeping it and opening it.",
  file: (name: string) => `The file as it will be kept, ${name}`,
  fileText: "Text of the site file",
  yours: "Filled in for you",
  loaders: "Not asked, and decides most",
  estimate:
    "What comes is an estimate of what was tried, not a promise. Put right what is wrong: here, or later in the file.",
  notYet: "The answers can\u2019t be rehearsed yet.",
  goTo: (what: string) => `Go to ${what}`,

  soFar: "So far",
  sketch: (names: string) => `The tanks in rough scale: ${names}`,
  sum: {
    water: (litres: string, tanks: number) => `${litres} in ${tanks} ${one(tanks, "tank", "tanks")}`,
    heat: (count: number, watts: string) =>
      count === 0 ? "no heater" : `${count} ${one(count, "heater", "heaters")}, ${watts} together`,
    flow: (pumps: number, flow: string, more: readonly string[]) =>
      [`${pumps} ${one(pumps, "pump moves", "pumps move")} ${flow}`, ...more].join(", "),
    skimmer: "skimmer",
    topOff: "top-off",
    doser: "dosing",
    reactor: "calcium reactor",
    power: (circuits: number, load: string, batteries: number) =>
      `${circuits === 1 ? "one circuit" : `${circuits} circuits`}, up to ${load}${batteries === 0 ? "" : `, ${batteries} ${one(batteries, "battery", "batteries")}`}`,
    watch: (sensors: number, rules: number) =>
      sensors === 0
        ? "nothing measures"
        : `${sensors} ${one(sensors, "sensor", "sensors")}, ${rules} ${one(rules, "rule", "rules")}`,
    people: (names: string, away: string) => `${names}; away up to ${away}`,
  },

  otherWays: "Or begin with something that is there",
  examples: "An example",
  example: (systems: number, devices: number) =>
    `${systems} ${one(systems, "tank", "tanks")}, ${devices} ${one(devices, "device", "devices")}`,
  folder: "A site file of this folder",
  takeIn: "A site file from elsewhere",
  takeInNote: "It is checked first, and kept here as a new file when it can be read.",
  tooLarge: (most: string) =>
    `The file is too large: more than ${most} are not read, and a site file has some kilobytes.`,
  notRead: (name: string) => `${name} can\u2019t be read, and nothing was kept.`,
  moreProblems: (count: number) => `${count} more ${one(count, "problem", "problems")} in the file`,
};
