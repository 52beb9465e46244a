/** What has become of a log, as it stands behind its name. */
export const STATE_WORDS = {
  arrived: "is here, not counted yet",
  read: "counted in part, not wholly yet",
  settled: "counted again in part, not wholly yet",
  counted: "counted",
  withdrawn: "taken back",
} as const;

/** The same of a log that is taken back part by part, where parts of it still count. */
export const TAKEN_IN_PART = "taken back in part, not wholly yet";

/** What has become of a picture, whose rows come in with what is typed from it. */
export const TYPING_WORDS = {
  waiting: "waiting to be typed",
  typed: "typed",
} as const;

export const FATE_WORDS = {
  counted: "counted",
  held: "needs your answer",
  "set-aside": "not a batch",
} as const;
