import type { Api } from "#server/api/request";
import type { SignalTold } from "#server/api/signals";
import { plusMonths } from "#server/terms/days";

/** Signals are looked for over so many months at once at the most. */
const MOST = 36;

/** Steps of a site told in some months, each once: one that only says an earlier one again is left out. */
export async function signalsAsked(
  api: Api,
  site: string,
  from: string,
  to: string,
  known: string | undefined,
): Promise<SignalTold[]> {
  const first = plusMonths(to, 1 - MOST);
  const asked = { from: from < first ? first : from, to, site, ...(known === undefined ? {} : { asOf: known }) };
  const { signals } = await api.signals.list(asked);
  return signals.filter(({ confirms }) => confirms === null);
}
