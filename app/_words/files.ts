/** What has become of a log, as it stands behind its name. */
export const STATE_WORDS = {
  arrived: "is here, not counted yet",
  read: "is here, not counted yet",
  settled: "answered, not counted yet",
  counted: "counted",
  withdrawn: "taken back",
} as const;

export const FATE_WORDS = {
  counted: "counted",
  held: "needs your answer",
  "set-aside": "not a batch",
} as const;
