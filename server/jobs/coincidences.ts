import { plusDays } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import type { Noticed } from "#server/terms/signal";
import type { Coincidence } from "#server/terms/signalTold";
import type { SiteLog } from "./siteLogs";
import { changesDeclared } from "./streams";
import type { SignalRow } from "./watchOrder";

/** A declaration or a changed log within so many days of the span in which a change may lie is told with it. */
const NEAR_DAYS = 3;
/** Units differ by a factor of at least two; rounding does not. */
const OTHER_UNIT = 1.5;

/** What was declared, and what was noticed in the logs, near the change that a signal tells of; in the order of days. */
export function coincidencesOf(
  { measure, sinceFrom, sinceTo }: Pick<SignalRow, "measure" | "sinceFrom" | "sinceTo">,
  facts: readonly Fact[],
  logs: readonly SiteLog[],
): Coincidence[] {
  const [from, to] = [plusDays(sinceFrom, -NEAR_DAYS), plusDays(sinceTo, NEAR_DAYS)];
  const declared = changesDeclared(facts, measure).map(
    (one): Coincidence => ({ day: one.from, what: one.what, how: "declared" }),
  );
  const all = [...declared, ...changedLogs(logs)].filter(({ day }) => day >= from && day <= to);
  return all.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** Logs laid out, or weighed, unlike every log of the site before them. */
function changedLogs(logs: readonly SiteLog[]): Coincidence[] {
  return logs.flatMap((log, i): Coincidence[] => {
    const before = logs.slice(0, i).filter(({ from }) => from < log.from);
    if (before.length === 0) return [];
    const layout = before.every(({ columns }) => columns !== log.columns);
    const weighed = before.flatMap(({ perKg }) => perKg ?? []);
    const { perKg } = log;
    const unit =
      perKg !== null && weighed.length > 0 && weighed.every((one) => Math.max(one / perKg, perKg / one) > OTHER_UNIT);
    return [
      ...(unit ? [{ day: log.from, what: "unit", how: "noticed" } as const] : []),
      ...(layout ? [{ day: log.from, what: "log-layout", how: "noticed" } as const] : []),
    ];
  });
}

/** What is asked about first: a changed unit, layout or scale. */
export function noticedAmong(coincides: readonly Coincidence[]): Noticed[] {
  return coincides.flatMap(({ day, what }) =>
    what === "unit" || what === "log-layout" || what === "scale" ? [{ day, what }] : [],
  );
}
