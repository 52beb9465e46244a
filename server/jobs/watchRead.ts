import {
  type AnswerStored,
  answersOf,
  type MonthStored,
  type StreamStored,
  signalRowsOf,
  watchedMonthsOf,
  watchedStreamsOf,
} from "#db/queries/signals";
import type { Tx } from "#db/store";
import type { Acknowledged } from "#server/terms/signal";
import { type AnswerRow, type MonthRow, type SignalRow, type StreamRow, signalKey } from "./watchOrder";

/** What was recorded by watching, in the words of watching. The database holds what these rooms wrote and nothing else. */
export async function signalRows(
  tx: Tx,
  from: string,
  to: string,
  site: number | null,
  size: number,
): Promise<SignalRow[]> {
  return signalRowsOf(tx, { from, to, site }, size);
}

export async function monthRows(tx: Tx, from: string, to: string, size: number): Promise<MonthRow[]> {
  return (await watchedMonthsOf(tx, from, to, size)).map(monthRowOf);
}

export async function streamRows(tx: Tx, from: string, to: string, size: number): Promise<StreamRow[]> {
  return (await watchedStreamsOf(tx, from, to, size)).map((row) => row as StreamStored & StreamRow);
}

/** The answers that stand: of each signal the last one. */
export async function standingAnswers(tx: Tx, site: number | null, size: number): Promise<AnswerStored[]> {
  const last = new Map((await answersOf(tx, site, size)).map((answer) => [signalKey(answer), answer]));
  return [...last.values()];
}

export function answerRow(answer: AnswerStored): AnswerRow {
  const { site, method, measure, raisedOn, direction } = answer;
  return { site, method, measure, raisedOn, direction, acknowledged: acknowledgedBy(answer) };
}

function acknowledgedBy({ kind, from, to, days, raisedOn }: AnswerStored): Acknowledged {
  if (kind === "real-change") return { kind, from: from ?? raisedOn };
  if (kind === "data-error") return { kind, days };
  if (kind === "temporary-cause") return { kind, from: from ?? raisedOn, to: to ?? from ?? raisedOn };
  return { kind, on: raisedOn };
}

/** What of a month's limits belongs to its records; what was not told of them then is not told now. */
interface RecordStored {
  readonly recordChance: number;
  readonly recordBefore?: MonthRow["recordBefore"];
}

/** JSON knows no infinity: a limit of single days that was not there yet comes back as null. */
function monthRowOf(row: MonthStored): MonthRow {
  const { limits, groups, ...rest } = row as MonthStored & MonthRow & { limits: RecordStored };
  const { recordChance, recordBefore = null, ...held } = limits;
  return {
    ...rest,
    limits: held,
    recordChance,
    recordBefore,
    groups: groups.map((group) => ({
      ...group,
      rules: { ...group.rules, spikeAt: group.rules.spikeAt ?? Number.POSITIVE_INFINITY },
    })),
  };
}
