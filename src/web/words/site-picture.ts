/** Words of moving parts by hand and keyboard in the picture of the site, of its zoom and of the ladder. */

export const pictureWords = {
  moves: (part: string, place: string) => `${part} moves to ${place}`,
  plugs: (part: string, place: string) => `${part} is plugged into ${place}`,
  hangs: (part: string, place: string) => `${part} hangs from ${place}`,
  connects: (pump: string, from: string, to: string) => `${pump} lifts water from ${from} to ${to}`,
  /** On a place while something may be put there. */
  here: { move: "move here", plug: "plug in here", connect: "connect here", narrow: "here" },
  target: { move: (place: string) => `Move to ${place}`, plug: (place: string) => `Plug into ${place}` },
  connectTo: (place: string) => `Connect to ${place}`,
  hintMove: (part: string) => `Where to with ${part}?`,
  hintConnect: (part: string) => `Which water shall share its water with ${part}?`,
  hintKeys: "Press an outlined place. Arrow keys go from place to place, Enter puts it there, Escape leaves it.",
  hintHand: "Let go over an outlined place. Escape leaves it as it was.",
  hintFinger: "Let go over an outlined place.",
  hintPress: "Press an outlined place, or choose one here.",
  nowhere: (part: string) => `There is no other place for ${part}.`,
  otherPlaces: "Places",
  put: "Put it there",
  cancel: "Leave it",
  done: (label: string) => `${label}.`,
  left: "Left as it was.",
  refused: "Nothing was changed.",
  close: "Close",
  connect: (part: string) => `Connect ${part} with another water`,
  keys: "M moves the chosen part, C connects a water, + and \u2212 bring it nearer and farther, 0 shows the whole.",

  zoom: { in: "Nearer", out: "Farther", whole: "The whole picture", group: "How near" },

  people: "people",
  wait: (time: string) => `after ${time}`,
  toldFirst: "told first",
  notOnLadder: "not on the ladder",
  reachedBy: (ways: string) => `by ${ways}`,
  and: " or ",
} as const;
