/** Remedies that cost a few minutes a month: trying what stands in, so that it is not dead on the day of need. */
import type { Device, Site } from "../../site/index.ts";
import type { Finding } from "./finding.ts";
import { flowPath } from "./places.ts";
import type { Draft, RemedyKind } from "./remedy.ts";
import { set } from "./writing.ts";

/** What is tried at least so often is found dead before it is needed, months. */
const QUARTER = 3;
const KEPT_UP = "every month, written down, and this kept up: without it the file is no longer true";

function isOld(months: number | null | undefined): boolean {
  return months === null || months === undefined || months > QUARTER;
}

export function trialRemedies(site: Site): readonly Draft[] {
  return [
    ...site.hubs
      .filter(
        ({ id, testedMonths }) =>
          isOld(testedMonths) && site.rules.some(({ hub, notice }) => hub === id && notice !== null),
      )
      .map(({ id }) => ofHub(site, id)),
    ...site.batteries
      .filter(({ lastTriedMonths }) => isOld(lastTriedMonths))
      .map(({ id }) =>
        trial(
          "trial-battery",
          id,
          `${id} tried every month with the plug pulled`,
          "Cells die in their case, and nothing shows it.",
          ["power", "batteries", id, "last-tried"],
          `Pull the plug and see that all it carries runs for its time, ${KEPT_UP}.`,
          (finding) =>
            finding.faults.some(
              (fault) =>
                fault === `${id}.battery-dead` ||
                fault === `${id}.no-takeover` ||
                fault === `${id}.will-not-start` ||
                fault === `${id}.fuel-short`,
            ),
        ),
      ),
    ...site.devices.flatMap((device) => ofDevice(device)),
    ...site.sensors
      .filter(
        ({ id, measures, testedMonths }) =>
          isOld(testedMonths) &&
          ["leak", "float", "mains"].includes(measures) &&
          site.rules.some(({ when }) => when.all.some(({ sensor }) => sensor === id)),
      )
      .map(({ id }) =>
        trial(
          "trial-sensor",
          id,
          `${id} proved every month against the real thing`,
          "A sensor that waits for its day may be dead for years.",
          ["sensors", id, "tested"],
          `A wet cloth, a lifted float or a pulled plug, and a look that the notice arrives, ${KEPT_UP}.`,
          (finding) =>
            finding.faults.some((fault) => [`${id}.dead`, `${id}.seized`, `${id}.stuck-present`].includes(fault)),
        ),
      ),
    ...site.flows
      .filter(({ testedMonths, by }) => by !== null && isOld(testedMonths))
      .map((flow) =>
        trial(
          "trial-flow",
          flow.id,
          `The plug of ${flow.by} pulled every month, and a look at ${flow.from}`,
          "Holes, valves and spare drains grow shut unseen.",
          [...flowPath(site, flow), "tested"],
          `Pull the plug, watch how far ${flow.from} rises and that all starts again, ${KEPT_UP}.`,
          (finding) =>
            finding.faults.some((fault) =>
              [
                `${flow.id}.siphon-break-plugged`,
                `${flow.id}.check-valve-open`,
                `${flow.id}.spare-drain-blocked`,
              ].includes(fault),
            ),
        ),
      ),
    ...site.people
      .filter(({ id, testedMonths }) => isOld(testedMonths) && site.ladder.some(({ person }) => person === id))
      .map(({ id }) =>
        trial(
          "trial-person",
          id,
          `A trial message to ${id} every month, which is answered`,
          "Numbers change and phones fall silent.",
          ["people", id, "tested"],
          `A trial message at an odd hour, answered by ${id}, ${KEPT_UP}.`,
          (finding) => finding.faults.includes(`${id}.cannot-be-reached`),
        ),
      ),
    ...(site.silenceWatch !== null && isOld(site.silenceWatch.testedMonths)
      ? [
          trial(
            "trial-silence",
            "silence-watch",
            "The watch outside the house tried every month",
            "A watch that no longer listens is as quiet as one that hears nothing wrong.",
            ["silence-watch", "tested"],
            `Unplug a hub and wait for the notice, ${KEPT_UP}.`,
            (finding) => finding.faults.includes("*.silence-watch-dead"),
          ),
        ]
      : []),
  ];
}

function trial(
  kind: RemedyKind,
  of: string,
  title: string,
  why: string,
  path: readonly (string | number)[],
  needs: string,
  meets: (finding: Finding) => boolean,
): Draft {
  return {
    kind,
    of,
    title,
    parts: of === "silence-watch" ? [] : [of],
    edits: [set(path, "1 month")],
    why,
    needs,
    meets,
  };
}

/** A hub's trial proves its rules as well, unless they say otherwise themselves. */
function ofHub(site: Site, hub: string): Draft {
  const rules = new Set(site.rules.filter((rule) => rule.hub === hub && isOld(rule.testedMonths)).map(({ id }) => id));
  return trial(
    "trial-hub",
    hub,
    `Every guarding rule of ${hub} provoked each month, and its notice awaited`,
    "Rules are switched off for service and notices muted, and stay so.",
    ["hubs", hub, "tested"],
    `Warm a probe, wet a sensor, pull a plug, until each notice has arrived, ${KEPT_UP}.`,
    (finding) =>
      finding.faults.includes(`${hub}.notices-muted`) ||
      (rules.has(finding.part) && finding.mode === "left-off" && finding.stressor === null),
  );
}

const SAFEGUARDS = ["cut-out-dead", "second-float-dead", "run-limit-off"];

function ofDevice(device: Device): readonly Draft[] {
  const { id, spare, cutOutC, ownFloat } = device;
  const guarded = cutOutC !== null || ownFloat?.spareL != null || ownFloat?.longestRunS != null;
  const drafts: Draft[] = [];
  if (guarded && isOld(device.testedMonths))
    drafts.push(
      trial(
        "trial-device",
        id,
        `The safeguards of ${id} tried every month`,
        "A cut-out or second float that nobody tries is dead in a house out of ten.",
        ["devices", id, "tested"],
        `Warm the cut-out in a cup or lift the float, and see that it stops ${id}, ${KEPT_UP}.`,
        (finding) => finding.faults.some((fault) => SAFEGUARDS.some((mode) => fault === `${id}.${mode}`)),
      ),
    );
  else if (spare !== null && isOld(device.testedMonths ?? spare.lastTriedMonths))
    drafts.push({
      ...trial(
        "trial-device",
        id,
        `${id} run as a trial every month`,
        "A spare that waits for its day may be dead for years.",
        ["devices", id, "spare"],
        `See it start by itself and do its work, ${KEPT_UP}.`,
        (finding) => finding.faults.includes(`${id}.spare-dead`),
      ),
      edits: [set(["devices", id, "spare"], { "last-tried": "1 month" })],
    });
  return drafts;
}
