import {
  bigint,
  boolean,
  date,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import type { Method } from "#server/terms/batch";
import type { Direction, Signal, Watched } from "#server/terms/signal";
import type { AnswerKind, SignalStanding } from "#server/terms/signalTold";

/**
 * What a month's streams were held to, one row each time it was watched: limits and pooled parameters are those of the
 * first row unless streams joined; the counts are those known at `knownSize`.
 */
export const watchedMonths = pgTable(
  "watched_months",
  {
    month: text().notNull(),
    edition: text().notNull(),
    /** false alarms a month as the officer said them, and how the number is meant */
    accepted: doublePrecision().notNull(),
    reading: text().notNull(),
    limits: jsonb().notNull(),
    /** pooled parameters and rules of each method and measure */
    groups: jsonb().notNull(),
    streams: integer().notNull(),
    points: integer().notNull(),
    expectedFalse: doublePrecision("expected_false").notNull(),
    knownSize: bigint("known_size", { mode: "number" }).notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({ name: "watched_months_change_once_a_record", columns: [t.month, t.ledgerIndex] }),
    index("watched_months_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);

/** How far a stream had come at the end of a month, one row each time that changed. */
export const watchedStreams = pgTable(
  "watched_streams",
  {
    month: text().notNull(),
    site: integer().notNull(),
    method: text().$type<Method>().notNull(),
    measure: text().$type<Watched>().notNull(),
    /** points in the month */
    points: integer().notNull(),
    /** of the reference that ran at the month's end: its first day, days that taught it, and their spread s */
    referenceFrom: date("reference_from", { mode: "string" }),
    begunBy: text("begun_by").notNull(),
    learnt: integer().notNull(),
    unit: doublePrecision(),
    /** level of the reference, in the measure's own unit */
    level: doublePrecision(),
    /** the quarter up to the month's end against the days of the reference before it; null where there are too few */
    slow: jsonb(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({
      name: "watched_streams_change_once_a_record",
      columns: [t.month, t.site, t.method, t.measure, t.ledgerIndex],
    }),
    index("watched_streams_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);

/**
 * A signal as it stood at the end of a month, one row each time something about it changed. Site 0: what the sites of a
 * method did together. The day it was raised on is part of its name and stays, whatever later days say.
 */
export const signals = pgTable(
  "signals",
  {
    site: integer().notNull(),
    method: text().$type<Method>().notNull(),
    measure: text().$type<Watched>().notNull(),
    raisedOn: date("raised_on", { mode: "string" }).notNull(),
    direction: text().$type<Direction>().notNull(),
    /** at the end of which month it stood so */
    month: text().notNull(),
    state: text().$type<SignalStanding>().notNull(),
    chart: text().$type<Signal["chart"]>().notNull(),
    since: date({ mode: "string" }),
    sinceFrom: date("since_from", { mode: "string" }).notNull(),
    sinceTo: date("since_to", { mode: "string" }).notNull(),
    dateDetermined: boolean("date_determined").notNull(),
    change: doublePrecision().notNull(),
    low: doublePrecision().notNull(),
    high: doublePrecision().notNull(),
    level: doublePrecision().notNull(),
    before: doublePrecision().notNull(),
    after: doublePrecision().notNull(),
    per30Days: doublePrecision("per_30_days").notNull(),
    daysSince: integer("days_since").notNull(),
    confirms: date({ mode: "string" }),
    /** part of what the sites of its method did together */
    together: boolean().notNull(),
    /** what it comes to over 30 days in kg dried, so that signals can be ordered; null where it cannot be told */
    costDriedKg: doublePrecision("cost_dried_kg"),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({
      name: "signals_change_once_a_record",
      columns: [t.site, t.method, t.measure, t.raisedOn, t.direction, t.month, t.ledgerIndex],
    }),
    index("signals_by_day").on(t.raisedOn),
    index("signals_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);

/** What a person found out about a signal; a later answer stands in front of an earlier one. Its reason is sealed. */
export const signalAnswers = pgTable(
  "signal_answers",
  {
    site: integer().notNull(),
    method: text().$type<Method>().notNull(),
    measure: text().$type<Watched>().notNull(),
    raisedOn: date("raised_on", { mode: "string" }).notNull(),
    direction: text().$type<Direction>().notNull(),
    kind: text().$type<AnswerKind>().notNull(),
    from: date("from_day", { mode: "string" }),
    to: date("to_day", { mode: "string" }),
    days: jsonb().notNull(),
    person: uuid().notNull(),
    reasonSealed: text("reason_sealed").notNull(),
    ledgerIndex: bigint("ledger_index", { mode: "number" }).notNull(),
  },
  (t) => [
    primaryKey({
      name: "signal_answers_are_given_once_a_record",
      columns: [t.site, t.method, t.measure, t.raisedOn, t.direction, t.ledgerIndex],
    }),
    index("signal_answers_in_order_of_records").using("brin", t.ledgerIndex),
  ],
);
