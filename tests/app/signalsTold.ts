import type { PointTold, ReferenceTold, SignalTold, StoryTold, StreamShown } from "#server/terms/signalTold";

/** An invented signal of Salt Lane: the hose leaks. */
export function signalTold(said: Partial<SignalTold> = {}): SignalTold {
  const {
    site = "SL",
    method = "sand-pan",
    measure = "fuel-intensity",
    raisedOn = "2031-07-23",
    direction = "up",
  } = said;
  return {
    id: [site ?? "_", method, measure, raisedOn, direction].join("."),
    site,
    method,
    measure,
    raisedOn,
    direction,
    chart: "drift",
    confirms: null,
    since: "2031-07-18",
    sinceFrom: "2031-07-16",
    sinceTo: "2031-07-19",
    dateDetermined: true,
    change: 0.4,
    low: 0.3,
    high: 0.52,
    level: 0.95,
    before: 7.9,
    after: 11.06,
    per30Days: 500,
    daysSince: 6,
    state: "stands",
    together: false,
    answer: null,
    cost: { per30Days: 500, unit: "mj", driedKg: 40 },
    coincides: [],
    questions: ["does-the-hose-or-regulator-leak", "is-the-burner-blocked-or-in-the-wind", "is-the-fuel-wet"],
    ...said,
  };
}

export function storyTold(signals: readonly SignalTold[], said: Partial<StoryTold> = {}): StoryTold {
  return {
    site: signals[0]?.site ?? null,
    name: "Salt Lane",
    signals,
    firstRaisedOn: signals[0]?.raisedOn ?? "",
    partOf: null,
    driedKg: 40,
    ...said,
  };
}

export function pointTold(day: string, said: Partial<PointTold> = {}): PointTold {
  return {
    day,
    value: 8,
    mass: 20,
    centre: 8,
    low: 6,
    high: 10,
    score: 0,
    chart: 0,
    limit: 0.7,
    state: "scored",
    leftOutBy: null,
    raised: null,
    files: [],
    ...said,
  };
}

export function referenceTold(said: Partial<ReferenceTold> = {}): ReferenceTold {
  return {
    from: null,
    to: null,
    begunBy: "first-day",
    state: "running",
    days: 40,
    learn: 12,
    level: 8,
    spread: 0.05,
    ...said,
  };
}

export function streamShown(said: Partial<StreamShown> = {}): StreamShown {
  return {
    stream: { site: "SL", method: "sand-pan", measure: "fuel-intensity" },
    name: "Salt Lane",
    points: [],
    references: [referenceTold()],
    held: null,
    delays: [],
    signals: [],
    ...said,
  };
}
