import { lastWatched } from "#db/queries/signals";
import { allSites, factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { LEARN } from "#server/drift/parameters";
import { quarterOf } from "#server/drift/pools";
import { FALSE_SHARE } from "#server/drift/slowChange";
import { adjustedChances } from "#server/statistics/falseDiscovery";
import {
  type AcceptedShown,
  isCountedOnce,
  type MonthWatched,
  type SlowTold,
  type StreamWatched,
} from "#server/terms/acceptedTold";
import { daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { StreamTold } from "#server/terms/signalTold";
import { foundAfter } from "./foundAfter";
import { signalsOf } from "./signals";
import { namesOf } from "./tellSignals";
import { type MonthRow, type SignalRow, type StreamRow, signalKey } from "./watchOrder";
import { monthRows, standingAnswers, streamRows } from "./watchRead";

const MONTHS = 12;
/** The size of change told for every stream; the page of one stream tells more. */
const CHANGE = [0.1];

/** What follows from the false alarms accepted: limits, what they promised and what came, how soon changes are found. */
export async function acceptedShown(tx: Tx, size: number, today: string): Promise<AcceptedShown> {
  const sites = await allSites(tx);
  const facts = await factsOf(
    tx,
    sites.map(({ id }) => id),
    size,
  );
  const said = inForce(
    facts.filter(({ site }) => site === 0),
    "false-alarms",
    today,
  );
  const inForceNow = { said: said?.perMonth ?? 1, reading: said?.reading ?? ("on-average" as const) };
  const lastMonth = await lastWatched(tx, size);
  const nothing = { months: [], streams: [], defaults: [], slow: [], quarterFrom: null, falseShare: FALSE_SHARE };
  if (lastMonth === null) return { ...inForceNow, ...nothing };
  const watched = await monthRows(tx, plusMonths(lastMonth, -MONTHS), lastMonth, size);
  // a month whose logs are still to come says nothing of how soon anything would be found
  const month = watched.findLast(({ points }) => points > 0)?.month ?? lastMonth;
  const first = plusMonths(month, 1 - MONTHS);
  const months = watched.filter((one) => one.month >= first && one.month <= month);
  const signals = await signalsOf(tx, first, month, null, size);
  const answers = await standingAnswers(tx, null, size);
  const last = months.at(-1);
  const streams = await streamRows(tx, month, month, size);
  const told = telling(sites, facts);
  return {
    ...inForceNow,
    months: months.map((one) =>
      monthTold(one, signals, new Map(answers.map((answer) => [signalKey(answer), answer.kind]))),
    ),
    streams: last === undefined ? [] : streams.map((row) => streamTold(row, last, told(row), today, facts)),
    defaults: (last?.groups ?? []).flatMap(({ method, measure, pooled }) =>
      pooled.from === "defaults" ? [{ method, measure, streams: pooled.streams }] : [],
    ),
    slow: slowTold(streams, told),
    quarterFrom: `${quarterOf(month)}-01`,
    falseShare: FALSE_SHARE,
  };
}

type Names = (row: StreamRow) => StreamTold & { readonly name: string | null };

function telling(sites: readonly { readonly id: number; readonly code: string }[], facts: readonly Fact[]): Names {
  const names = namesOf(facts, sites);
  const codes = new Map(sites.map(({ id, code }) => [id, code]));
  return ({ site, method, measure }) => ({
    site: codes.get(site) ?? null,
    name: names.get(site) ?? null,
    method,
    measure,
  });
}

function monthTold(row: MonthRow, signals: readonly SignalRow[], answers: ReadonlyMap<string, string>): MonthWatched {
  const raised = signals.filter((one) => monthOf(one.raisedOn) === row.month && isCountedOnce(one));
  const kinds = raised.flatMap((one) => answers.get(signalKey(one)) ?? []);
  const falseAlarms = kinds.filter((kind) => kind === "no-cause-found").length;
  return {
    month: row.month,
    streams: row.streams,
    points: row.points,
    said: row.accepted,
    reading: row.reading,
    accepted: row.limits.expected,
    expectedFalse: row.expectedFalse,
    raised: raised.length,
    answered: kinds.length,
    confirmed: kinds.length - falseAlarms,
    falseAlarms,
    limit: row.limits.limit,
    meanPoints: row.limits.meanPoints,
  };
}

function streamTold(
  row: StreamRow,
  held: MonthRow,
  told: StreamTold & { readonly name: string | null },
  today: string,
  facts: readonly Fact[],
): StreamWatched {
  const group = held.groups.find(({ method, measure }) => method === row.method && measure === row.measure);
  const own = facts.filter(({ site }) => site === row.site || site === 0);
  const daysInMonth = Number(daysOfMonth(row.month).to.slice(8));
  const due = inForce(own, "due", today)?.dayOfMonth ?? null;
  return {
    ...told,
    points: row.points,
    state: row.learnt > LEARN ? "running" : "learning",
    days: row.learnt,
    learn: LEARN,
    found: group === undefined ? [] : foundAfter({ ...row, daysInMonth }, group, today, due, CHANGE),
  };
}

/** Chances are adjusted over all streams that are compared, so this is for those who see them all. */
function slowTold(streams: readonly StreamRow[], told: Names): SlowTold[] {
  const compared = streams.flatMap((row) => (row.slow === null ? [] : [{ row, slow: row.slow }]));
  const adjusted = adjustedChances(compared.map(({ slow }) => slow.chance));
  return compared
    .map(({ row, slow }, i) => ({
      ...told(row),
      change: Math.expm1(slow.effect),
      low: Math.expm1(slow.low),
      high: Math.expm1(slow.high),
      chance: slow.chance,
      adjusted: adjusted[i]!,
      named: adjusted[i]! <= FALSE_SHARE,
      days: slow.days,
      daysBefore: slow.daysBefore,
    }))
    .sort((a, b) => a.chance - b.chance);
}
