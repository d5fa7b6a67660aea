/** Words of the findings and of what to do about them. */
const one = (count: number, single: string, many: string): string => (count === 1 ? single : many);

export const remedyWords = {
  /** A step of the draft: "If this is done: a leak sensor on the floor". */
  done: (title: string) => `this is done: ${title}`,
  back: "Drills",
  doFirst: (title: string) => `Do this first: ${title}.`,
  againstFaults: (title: string) => `Against faults, do this first: ${title}.`,
  aimsAt: (shown: string, all: string, count: number) =>
    `It aims at ${shown} of ${all} ${one(count, "finding", "findings")}.`,
  more: (steps: number, shownSteps: string, shownFindings: string) =>
    steps === 0 ? "" : `${shownSteps} more ${one(steps, "change aims", "changes aim")} at ${shownFindings} others.`,
  left: (count: number, shown: string) =>
    count === 0 ? "" : `For ${shown} nothing is known here that would change ${one(count, "it", "them")}.`,
  untried: "What a change does is known once it is tried.",
  reading: "Looking for what would change them.",
  failed: "What would change them could not be had.",
  again: "Try again",
  steps: "What to do, what aims at most for least first",
  leftTitle: "Findings that no change here aims at",
  plainTitle: "Without any fault",
  moreSteps: (rest: string) => `Show the other ${rest} changes`,

  once: (time: string) => `${time} to put in place`,
  monthly: (minutes: number, time: string) =>
    minutes === 0 ? "nothing to keep up" : minutes < 0 ? `${time} a month saved` : `${time} a month to keep up`,
  nothingToBuy: "nothing to buy",
  roughly: (low: string, high: string) => `roughly ${low} to ${high}\u00a0EUR`,

  tryIt: "Try it",
  putBack: "Put back",
  tryItSpoken: (title: string) => `Try it: ${title}`,
  putBackSpoken: (title: string) => `Put back: ${title}`,
  refused: (why: string) => `It can\u2019t be put into the file: ${why}`,
  inDraft: "Tried, and not kept yet",
  together: (count: number) => `All ${count} changes at the foot together`,

  details: (findings: number, shown: string, others: number) =>
    [
      "What it takes",
      `${shown} ${one(findings, "finding", "findings")}`,
      ...(others === 0 ? [] : [`${others} ${one(others, "other way", "other ways")}`]),
    ].join(", "),
  detailsAlone: "What it takes",
  needs: "To do before the file is true",
  changes: "What changes in the description",
  aims: "Findings that it aims at",
  others: "Other ways to meet some of these",
  moreFindings: (count: string) => `and ${count} more`,

  edit: {
    name: "name",
    notWritten: "not written before",
    isNew: "new",
    was: (value: string) => `was ${value}`,
    out: "taken out",
  },

  effect: {
    soFar: "So far",
    seen: "Seen",
    moved: (better: number, worse: number, shownBetter: string, shownWorse: string) =>
      better + worse === 0
        ? "no verdict moves"
        : `${better === 0 ? "none" : shownBetter} better, ${worse === 0 ? "none" : shownWorse} worse`,
    aims: (aimed: number, closed: number, shownAimed: string, shownClosed: string) =>
      aimed === 0
        ? ""
        : closed === 0
          ? `what it aims at stays as it was, ${shownAimed} ${one(aimed, "drill", "drills")}`
          : `${shownClosed} of the ${shownAimed} drills that it aims at ${one(closed, "has", "have")} no finding any more`,
    opened: (count: number, shown: string) =>
      count === 0 ? "" : `${shown} ${one(count, "drill has", "drills have")} a new finding`,
    compare: "Compare all",
    waiting: "It will be tried in a moment.",
  },

  survey: {
    begin: (count: number) => `Try the first ${count} one after the other`,
    hint: "Each by itself, on the file as it is. Nothing is changed.",
    busy: "Once the change at the foot has been tried.",
    running: (place: string, of: string, title: string) => `Trying ${place} of ${of}, ${title}`,
    drills: (done: string, total: string) => `, ${done} of ${total} drills`,
    stop: "Stop",
    bar: "changes tried",
    stopped: (done: number, of: number) => `Stopped after ${done} of ${of}. What was seen stays below.`,
    gaveWay: "It gave way to another change that is being tried. What was seen stays below.",
    done: (count: number) => `${count} ${one(count, "change", "changes")} tried.`,
  },
} as const;
