import { isCountedOnce } from "#server/terms/acceptedTold";
import type { SignalTold } from "#server/terms/signalTold";

interface Row {
  readonly name: string | null;
  readonly signal: SignalTold;
}

/** The rows that a month's count holds, and the others; each in the order of their days. */
export function countedIn(rows: readonly Row[]): { readonly counted: readonly Row[]; readonly others: readonly Row[] } {
  const inOrder = [...rows].sort((a, b) => (a.signal.raisedOn < b.signal.raisedOn ? -1 : 1));
  return {
    counted: inOrder.filter(({ signal }) => isCountedOnce(signal)),
    others: inOrder.filter(({ signal }) => !isCountedOnce(signal)),
  };
}
