import type { Method } from "./batch";
import type { Role } from "./person";
import type { DeclaredChange, Direction, FirstQuestion, Signal, Watched } from "./signal";

/** What became of a signal. */
export type SignalStanding =
  /** it stands */
  | "stands"
  /** the level went back */
  | "back"
  /** a later one goes the other way */
  | "turned"
  /** an answer or a declared change ended it */
  | "ended"
  /** nobody answered while it stood: by now its days are what later ones are compared with */
  | "unanswered"
  /** the days as known now no longer tell of it */
  | "unsupported";

export const ANSWER_KINDS = ["real-change", "data-error", "temporary-cause", "no-cause-found"] as const;
export type AnswerKind = (typeof ANSWER_KINDS)[number];

/** What a person found out about a signal. Days only where the kind needs them. */
export interface SignalAnswer {
  readonly kind: AnswerKind;
  /** of a real change the first day of the new level; of a passing cause its first day */
  readonly from: string | null;
  /** of a passing cause its last day */
  readonly to: string | null;
  /** days whose records are wrong */
  readonly days: readonly string[];
  /** null where it was erased */
  readonly reason: string | null;
  /** who answered; null where that name is not for the one who asks */
  readonly by: string | null;
  /** what that person is today; null with `by` */
  readonly role: Role | null;
  /** when; null where the record is not for the one who asks */
  readonly at: string | null;
  readonly ledgerIndex: number;
}

/** What a signal comes to over 30 days: in the unit of what is measured, and as kg dried so that signals can be ordered. */
export interface SignalCost {
  /** positive: more of it than before */
  readonly per30Days: number;
  readonly unit: "kg-dried" | "kg-fresh" | "mj" | "minutes" | "batches";
  /** never negative; null where it cannot be told, such as of what sites did together */
  readonly driedKg: number | null;
}

/** Something declared, or noticed in the logs, near a change. */
export interface Coincidence {
  readonly day: string;
  readonly what: DeclaredChange["what"] | "unit";
  readonly how: "declared" | "noticed";
}

/** A signal as it stands, told to somebody who may see it. `site` is a code; null: what the sites of a method did together. */
export interface SignalTold extends Omit<Signal, "site"> {
  /** stable, and safe in an address */
  readonly id: string;
  readonly site: string | null;
  readonly state: SignalStanding;
  /** part of what the sites of its method did together, such as a season; always false of that itself */
  readonly together: boolean;
  readonly answer: SignalAnswer | null;
  readonly cost: SignalCost;
  readonly coincides: readonly Coincidence[];
  readonly questions: readonly FirstQuestion[];
}

/** Signals of one site that tell of one thing. Told at least by one signal. */
export interface StoryTold {
  readonly site: string | null;
  /** the site's name as declared; null of what sites did together */
  readonly name: string | null;
  /** in the order in which they were raised */
  readonly signals: readonly SignalTold[];
  readonly firstRaisedOn: string;
  /** what the sites of its method did together, where all of the story is part of it; null else, and for site leads */
  readonly partOf: SignalTold | null;
  /** the largest of its signals that wait (of all, where none does) in kg dried over 30 days; null where none can be told */
  readonly driedKg: number | null;
}

/** Which stream. */
export interface StreamTold {
  readonly site: string | null;
  readonly method: Method;
  readonly measure: Watched;
}

/** One point of a stream (a day, a window of fuel told by its last day, a week of sites together, a month of the record). */
export interface PointTold {
  readonly day: string;
  /** in the measure's own unit; of sites together the middle of their scores */
  readonly value: number;
  /** what the day weighs: kg fresh, pan-hours, kg driven off, sites, or what was owed */
  readonly mass: number;
  /** what earlier days led to expect, and within which a day raises no question; null while learning or left out */
  readonly centre: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** in standard deviations; null while learning or left out */
  readonly score: number | null;
  /** the drift chart, and the ± limit it is held against; null while learning or left out */
  readonly chart: number | null;
  readonly limit: number | null;
  readonly state: "learning" | "screened" | "scored" | "far-outside" | "left-out";
  /** of a day left out: by which answer */
  readonly leftOutBy: "data-error" | "temporary-cause" | null;
  /** raised by the chart on this day */
  readonly raised: Direction | null;
  /** logs that the day was read from; [] where they were not asked for */
  readonly files: readonly string[];
}

/** A span of days that are compared with each other alone. */
export interface ReferenceTold {
  /** null: the stream's first day */
  readonly from: string | null;
  /** first day of the next; null while it runs */
  readonly to: string | null;
  readonly begunBy: "first-day" | "real-change" | DeclaredChange["what"];
  readonly state: "learning" | "running" | "ended";
  /** days that taught it, and how many are needed before it can raise anything */
  readonly days: number;
  readonly learn: number;
  /** its level in the measure's own unit, and the spread s of a usual day as a share; null while there is none */
  readonly level: number | null;
  readonly spread: number | null;
}

/** What the stream of a month is held to. */
export interface HeldTold {
  readonly month: string;
  /** spread between days as a share of all, correlation of neighbouring days, what other streams lead to expect */
  readonly omega: number;
  readonly rho: number;
  readonly d0: number;
  readonly s02: number;
  /** "defaults" while there are too few streams or points to tell */
  readonly from: "streams" | "defaults";
  readonly streams: number;
  readonly points: number;
  readonly lambda: number;
  readonly clamp: number;
  /** the drift chart raises beyond ± this; a day beyond ± `spikeAt` is asked about, null: none is yet */
  readonly edge: number;
  readonly spikeAt: number | null;
  readonly edition: string;
}

/** How soon a lasting change of some size would be found. */
export interface FoundAfter {
  /** 0.1 is 10 % more; the same holds for 10 % less within a day or so */
  readonly change: number;
  /** days with a value by which every second one is found; null: not within a year of them */
  readonly days: number | null;
  /** the day on which it would be told if it began today and logs came when they are due; null with `days` */
  readonly toldOn: string | null;
  /** calendar days from today until then */
  readonly calendarDays: number | null;
  /** the same if logs came every week */
  readonly calendarDaysWeekly: number | null;
}

/** A stream over some months. */
export interface StreamShown {
  readonly stream: StreamTold;
  readonly name: string | null;
  readonly points: readonly PointTold[];
  readonly references: readonly ReferenceTold[];
  /** of the last month shown; null where nothing was watched then */
  readonly held: HeldTold | null;
  readonly delays: readonly FoundAfter[];
  /** raised within the months, in the order of their days */
  readonly signals: readonly SignalTold[];
}

/** One revision of a signal. */
export interface SignalRevision {
  readonly month: string;
  readonly state: SignalStanding;
  readonly change: number;
  readonly since: string | null;
  readonly at: string | null;
  readonly ledgerIndex: number;
}

export interface SignalShown {
  readonly signal: SignalTold;
  readonly name: string | null;
  /** revisions and answers, oldest first */
  readonly revisions: readonly SignalRevision[];
  readonly answers: readonly SignalAnswer[];
  /** other signals of the same story */
  readonly others: readonly SignalTold[];
  readonly partOf: SignalTold | null;
  /** its stream from a quarter before the change to the end of what is known */
  readonly shown: StreamShown;
  readonly mayAnswer: boolean;
}

export interface Inbox {
  /** not answered, and standing; the costliest first */
  readonly open: readonly StoryTold[];
  /** answered, or ended without an answer: the latest first */
  readonly answered: readonly StoryTold[];
  /** the last month that was watched; null: none yet */
  readonly watchedTo: string | null;
}
