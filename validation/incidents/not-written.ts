/** Reports that can not be said in a site file and a fault as they stand, in our own words. */
export interface NotWritten {
  readonly incidents: readonly string[];
  readonly what: string;
  readonly needs: string;
}

export const NOT_WRITTEN: readonly NotWritten[] = [
  {
    incidents: ["I014", "I019", "I022"],
    what: "Mains away for three to nine days",
    needs:
      "a cut longer than two days among the faults (I014 is rehearsed with the two-day cut made longer); fuel that is bought again or not",
  },
  {
    incidents: ["I025", "I068", "I086", "I088"],
    what: "Someone saw it and put it off, or mended half of it",
    needs: "people who hesitate or act in part: a time from seeing to acting, a fault of the person",
  },
  {
    incidents: ["I033"],
    what: "A top-off hose under water carried salt water back to the reservoir, to and fro",
    needs: "water that runs both ways through a device",
  },
  {
    incidents: ["I039"],
    what: "Lime water that lost its strength for months",
    needs: "a strength of lime water as a fault of its vessel; a notice on a slow trend",
  },
  {
    incidents: ["I040"],
    what: "Carbon pellets restarted at full strength starved corals",
    needs: "harm from too little phosphate or too fast a change of food in the water",
  },
  {
    incidents: ["I046"],
    what: "Carbon dioxide into the tank itself, by a probe that hung in the air; fresh water",
    needs: "a device that gives gas to a body; fresh water with little alkalinity, and its animals",
  },
  {
    incidents: ["I029", "I030", "I054"],
    what: "Hatcheries and ponds: cold or fresh water, many fish in little water",
    needs: "tolerances of cold-water and freshwater animals",
  },
  {
    incidents: ["I048", "I050", "I009"],
    what: "Metal, a magnet, the inside of a heater in the water",
    needs: "poison, left out on purpose (docs/faults.md)",
  },
  {
    incidents: ["I075", "I076", "I080"],
    what: "Fires",
    needs: "left out on purpose; what follows (no power, no access, leaks) is rehearsed by its own faults",
  },
  {
    incidents: ["I073"],
    what: "A chiller's loop drained three quarters of a large pool",
    needs: "leaks of loops and leaks in proportion to a large system; ours are of fixed size",
  },
  {
    incidents: ["I027"],
    what: "A new chiller's start opened a breaker that carried it when it ran",
    needs: "starting current; only steady load is computed",
  },
  {
    incidents: ["I064", "I059", "I061", "I066"],
    what: "Water that runs over plugs, and a breaker that opens because of it",
    needs: "one fault that leads to another: where the water goes, and what stands in its way",
  },
  {
    incidents: ["I089"],
    what: "A probe that drops out several times a day",
    needs: "faults that come and go",
  },
  {
    incidents: ["I043", "I058"],
    what: "Overdoses and tins of unknown size",
    needs: "an amount at the fault, in place of the one that it knows",
  },
];
