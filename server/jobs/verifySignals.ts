import { asPerson } from "#db/asPerson";
import { recordTimes } from "#db/queries/signals";
import { watchedUpTo } from "#db/queries/watched";
import { OPERATOR } from "#server/terms/person";
import type { Corridor } from "./record";
import { siteDay } from "./siteDay";
import type { Difference } from "./verify";
import { planInThread } from "./watchInThread";
import { signalKey } from "./watchOrder";
import { orderOf } from "./watchOrderOf";

const EVERYTHING = Number.MAX_SAFE_INTEGER;
const BEGINNING = "0001-01";

/**
 * Watches everything again as it was known when it was last watched, by the parameters recorded for each month: nothing
 * may come out that is not recorded so. Answers how many signals were told.
 */
export async function verifySignals(corridor: Corridor, note: (difference: Difference) => void): Promise<number> {
  const { size, time } = await asPerson(corridor, async (tx) => {
    const upTo = await watchedUpTo(tx, EVERYTHING);
    return { size: upTo, time: (await recordTimes(tx, [upTo])).get(upTo) };
  });
  if (size === 0 || time === undefined) return 0;
  const order = await orderOf({ ...corridor, person: OPERATOR.id }, size, siteDay(new Date(time), [], 0), BEGINNING);
  if (order === null) return 0;
  const { signals, months, streams } = await planInThread(order);
  for (const row of signals)
    note({ what: "signal", where: `${signalKey(row)}, ${row.month}`, detail: "watched again, it is told otherwise" });
  for (const row of streams)
    note({
      what: "signal",
      where: `series ${row.site} ${row.method} ${row.measure}, ${row.month}`,
      detail: "watched again, it had come another way",
    });
  const told = signals.length + streams.length;
  for (const row of told > 0 ? [] : months)
    note({ what: "signal", where: row.month, detail: "watched again, it is held to something else" });
  return new Set(order.signals.map(signalKey)).size;
}
