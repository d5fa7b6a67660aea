/** Cautions, each one plain sentence beside the task, which leaves the rest to local codes and licensed people. */
export const CAUTION = {
  plug: "Pull plugs with dry hands, and leave a plug or strip that is wet to an electrician.",
  water: "Switch off and unplug every device in the water before your hand goes in.",
  rod: "Keep your hands out of the water and use a dry plastic rod; unplug every device in the water before a hand goes in.",
  lead: "Lift the probe out by its lead, and keep your hands out of the water.",
  breaker:
    "Press it only where a licensed electrician fitted it, and if it will not close again after one try, leave it off and call one.",
  generator:
    "Run a generator outdoors only, far from doors and windows, and never feed the house through a socket from it.",
  heater: "Let a heater cool in water before lifting it out, because it can crack or burn.",
  lime: "Wear goggles and gloves with limewater, and rinse eyes at once for 15 minutes and get medical help if it gets there.",
  solution:
    "Wear goggles and gloves with dosing solutions and calibration liquids, and follow their safety data sheets.",
  flood: "Dry spills at once and keep sockets and strips off the floor.",
  uv: "Never look at or expose skin to a lit UV-C lamp.",
} as const;

/** What every paper of the whole place says. */
export const SITE_CAUTIONS: readonly string[] = [
  "Nothing here replaces independent protection in hardware: leakage breakers, cut-outs, floats, drains.",
  CAUTION.water,
  "Have sockets, circuits and transfer switches fitted by a licensed electrician, and let every cord hang lower than its socket.",
  "If a breaker trips again after one reset, leave it off and find the device at fault.",
  "Follow your local codes for mains, gas, chemicals and the weight of water.",
];
