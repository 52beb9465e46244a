import type { Api } from "#server/api/request";
import type { SignalTold } from "#server/api/signals";
import { plusMonths } from "#server/terms/days";

/** Signals are looked for over so many months at once at the most. */
const MOST = 36;

/** Steps of a site told in some months, each once, by the signal that told it last: that one knows most. As recorded. */
export async function signalsAsked(
  api: Api,
  site: string,
  from: string,
  to: string,
  known: string | undefined,
): Promise<{ readonly signals: SignalTold[]; readonly behind: boolean }> {
  const first = plusMonths(to, 1 - MOST);
  const asked = { from: from < first ? first : from, to, site, ...(known === undefined ? {} : { asOf: known }) };
  const { signals, behind } = await api.signals.list({ ...asked, wait: "not" });
  return { signals: lastOfSteps(signals), behind };
}

/** Of signals that say an earlier one again only the last. */
export function lastOfSteps(signals: readonly SignalTold[]): SignalTold[] {
  const stepOf = ({ method, measure, direction, confirms, raisedOn }: SignalTold) =>
    [method, measure, direction, confirms ?? raisedOn].join(" ");
  const inOrder = [...signals].sort((a, b) => (a.raisedOn < b.raisedOn ? -1 : 1));
  return [...new Map(inOrder.map((signal) => [stepOf(signal), signal])).values()];
}
