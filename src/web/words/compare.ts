/** Words of the comparison of two versions of a site. */
const one = (count: number, single: string, many: string): string => (count === 1 ? single : many);

/** "31 verdicts are better", "none is better". */
const verdictsAre = (count: number, shown: string, how: string): string =>
  count === 0 ? `no verdict is ${how}` : `${shown} ${one(count, "verdict is", "verdicts are")} ${how}`;

/** What is said of the unseen: how many are left of how many. */
const unseenLeft = (before: number, after: number, shownBefore: string, shownAfter: string): string => {
  if (before === 0 && after === 0) return "";
  if (after > before) return `; ${shownAfter} ${one(after, "is", "are")} unseen, before it was ${shownBefore}`;
  if (after === 0) return "; none of the unseen is left";
  return after === before
    ? `; as many are unseen as before, ${shownAfter}`
    : `; ${shownAfter} of the ${shownBefore} unseen ${one(after, "is", "are")} left`;
};

export const compareWords = {
  page: "Compare",
  link: "Compare two versions",
  back: "Drills",
  choose: "Compare",
  chooseNone: "Choose what to compare",
  withDraft: "the file with your changes",
  withBefore: "the version before with the file as it is",
  withFile: (file: string) => `the file with ${file}`,

  say: {
    moved: (
      better: { readonly count: number; readonly shown: string },
      worse: { readonly count: number; readonly shown: string },
      unseen: {
        readonly before: number;
        readonly after: number;
        readonly shownBefore: string;
        readonly shownAfter: string;
      },
    ) => {
      const first =
        better.count === 0 && worse.count > 0
          ? `${verdictsAre(worse.count, worse.shown, "worse")}, none is better`
          : `${verdictsAre(better.count, better.shown, "better")}, ${worse.count === 0 ? "none is worse" : `${worse.shown} ${one(worse.count, "is", "are")} worse`}`;
      return `${first}${unseenLeft(unseen.before, unseen.after, unseen.shownBefore, unseen.shownAfter)}.`;
    },
    still: (come: number, gone: number) =>
      come + gone === 0
        ? "No verdict moves."
        : `No verdict moves; ${[
            ...(come === 0 ? [] : [`${come} ${one(come, "drill is", "drills are")} new`]),
            ...(gone === 0 ? [] : [`${gone} ${one(gone, "drill is", "drills are")} gone`]),
          ].join(", ")}.`,
    stillMargins: (larger: number, smaller: number, shownLarger: string, shownSmaller: string) =>
      `No verdict moves; ${larger === 0 ? "no margin is larger" : `${shownLarger} ${one(larger, "margin is", "margins are")} larger`}, ${smaller === 0 ? "none smaller" : `${shownSmaller} smaller`}.`,
    nothingYet: "None of the drills that both have has been tried yet.",
    nothing: "The two have no drill in common, so there is nothing to lay side by side.",
    nothingNote: "Drills are the same where the parts have the same names and fail in the same way.",
    soFar: (done: string, total: string) => `So far, ${done} of ${total} drills`,
  },
  sides: (before: string, after: string) => `Before: ${before}. After: ${after}.`,
  asItIs: (file: string) => `${file} as it is`,
  withChanges: (file: string) => `${file} with your changes`,
  versionBefore: "the version before",
  versionNow: (file: string) => `${file} as it is now`,
  common: (common: string, come: number, gone: number) =>
    [
      `${common} drills are in both`,
      ...(come === 0 ? [] : [`${come} ${one(come, "is", "are")} new`]),
      ...(gone === 0 ? [] : [`${gone} ${one(gone, "is", "are")} gone`]),
    ].join(", "),

  flow: {
    name: "How many drills went from each verdict to each",
    before: "before",
    after: "after",
    corner: "before, downwards; after, across",
    better: "better",
    worse: "worse",
    same: "as before",
    counts: "How many of each verdict",
    verdict: "verdict",
    change: "change",
    inBoth: "in both",
  },

  filter: {
    name: "Show",
    all: "all",
    worse: "worse",
    better: "better",
    part: "Part",
    allParts: "All parts",
    none: "No drill that moved fits what you chose.",
    showAll: "Show all",
  },
  worse: (count: number, shown: string) =>
    count === 0 ? "No verdict is worse" : `${shown} ${one(count, "verdict is", "verdicts are")} worse`,
  better: (count: number, shown: string) =>
    count === 0 ? "No verdict is better" : `${shown} ${one(count, "verdict is", "verdicts are")} better`,
  neither: (shown: string) => `${shown} could not be simulated before or after`,
  margins: (count: number, shown: string) =>
    `${shown} ${one(count, "drill has", "drills have")} the same verdict and another margin`,
  come: (count: number, shown: string) => `${shown} ${one(count, "drill is", "drills are")} new`,
  gone: (count: number, shown: string) => `${shown} ${one(count, "drill is", "drills are")} gone`,
  more: (rest: string) => `Show the other ${rest}`,
  rows: "Drills that moved, before above and after below",
  before: "before",
  after: "after",
  shownIn: (count: string) => `${count} shown`,
  side: (side: string, verdict: string, margin: string) => `${side}: ${verdict}, ${margin}`,
  openSide: (side: string, name: string, verdict: string, margin: string) =>
    `Timeline of ${name}, ${side}: ${verdict}, ${margin}`,
  plain: "Without any fault",
  plainBefore: "before only",
  plainAfter: "after only",

  table: {
    show: "Show as table",
    fault: "fault",
    part: "part",
    when: "when",
    before: "verdict before",
    after: "verdict after",
    marginBefore: "margin before",
    marginAfter: "margin after",
    way: "way",
    first: (shown: string, all: string) => `The first ${shown} of ${all}.`,
  },
  way: { better: "better", worse: "worse", neither: "neither" },

  empty: {
    noDraft: "Nothing is changed that is not kept.",
    noDraftNote: "Change a part of the site, or try what a finding offers, and come back to see what it does.",
    toFindings: "Go to the findings",
    noBefore: "No version before this one is known to this page.",
    noBeforeNote: "It knows the version before the last change that was kept while it was open.",
    noChoice: "Choose two versions to lay side by side.",
    noChoiceNote:
      "The open file can be compared with your changes, with the version before, or with another site file.",
    noFile: (file: string) => `There is no site file called ${file} beside the open one.`,
    noOther: "There is nothing to compare with.",
    notRehearsed: "The open file has not been rehearsed yet, so there is nothing to compare with.",
    rehearse: "Rehearse",
    waiting: "The change will be tried in a moment.",
    loading: "Reading what was rehearsed.",
  },
  work: {
    trying: (what: string, done: string, total: string) => `Rehearsing ${what}, ${done} of ${total} drills`,
    begins: (what: string) => `The rehearsal of ${what} begins`,
    left: (time: string) => `, about ${time} left`,
    bar: "rehearsal of the other version",
    stop: "Stop",
    stopped: (done: string, total: string) => `Stopped after ${done} of ${total} drills. What was tried is shown.`,
    again: "Try again",
    failed: "The other version could not be rehearsed.",
    unread: (file: string) => `${file} can\u2019t be read.`,
    finished: "The comparison is whole.",
  },
} as const;
