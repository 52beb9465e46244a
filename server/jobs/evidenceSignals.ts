import { answersOf } from "#db/queries/signals";
import type { Tx } from "#db/store";
import type { SignalAnswerItem } from "#server/evidence/tables/signalAnswers";
import type { SignalItem } from "#server/evidence/tables/signals";
import { daysOfMonth } from "#server/terms/days";
import type { AskedTables } from "./evidenceParts";
import { TOGETHER } from "./watchOrder";
import { signalRows } from "./watchRead";

/** Signals raised in the months; what sites did together only where the whole programme is asked for. */
export async function signalItems(tx: Tx, asked: AskedTables): Promise<SignalItem[]> {
  const { from, to } = { from: daysOfMonth(asked.from).from, to: daysOfMonth(asked.to).to };
  const rows = await signalRows(tx, from, to, null, asked.known.ledgerSize);
  const codeOf = codesOf(asked);
  return rows.flatMap((row) => {
    const site = codeOf(row.site);
    return site === undefined ? [] : [{ ...row, site }];
  });
}

/** What was answered to them, oldest first. */
export async function signalAnswerItems(tx: Tx, asked: AskedTables): Promise<SignalAnswerItem[]> {
  const { from, to } = { from: daysOfMonth(asked.from).from, to: daysOfMonth(asked.to).to };
  const codeOf = codesOf(asked);
  return (await answersOf(tx, null, asked.known.ledgerSize)).flatMap((answer) => {
    const site = codeOf(answer.site);
    return site === undefined || answer.raisedOn < from || answer.raisedOn > to ? [] : [{ ...answer, site }];
  });
}

/** The code of a site that is asked for, null for the sites together; undefined for what is not asked for. */
function codesOf({ sites, whole }: AskedTables): (site: number) => string | null | undefined {
  const codes = new Map(sites.map(({ id, code }) => [id, code]));
  return (site) => (site === TOGETHER && whole ? null : codes.get(site));
}
