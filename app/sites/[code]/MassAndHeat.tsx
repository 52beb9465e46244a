import type { MonthFigures } from "#server/jobs/figures";
import { ChartFigure } from "../../_charts/ChartFigure";
import { heatAgainstFloor } from "../../_charts/heatAgainstFloor";
import { massParts } from "../../_charts/massParts";
import { spanInWords } from "../../_words/days";
import { METHOD_WORDS } from "../../_words/methods";
import { massOf } from "./massOf";
import styles from "./page.module.css";
import { shortMonth } from "./shortMonth";

interface Props {
  readonly months: readonly MonthFigures[];
  readonly period: { readonly from: string; readonly to: string };
}

/** Where the mass of the months shown went, and each month's heat against the least that water needs. */
export function MassAndHeat({ months, period }: Props) {
  const mass = massOf(months);
  const methods = new Set(months.flatMap(({ method }) => method ?? []));
  const lines = months
    .filter(({ figures }) => figures["fuel-per-driven-off"].known)
    .map(({ month, method, figures }) => ({
      name: methods.size > 1 && method !== null ? `${shortMonth(month)}, ${METHOD_WORDS[method]}` : shortMonth(month),
      intensity: figures["fuel-per-driven-off"],
      hollow: figures["fuel-per-driven-off"].restsOn.used === 1,
      loadsPerFiringDay: figures["loads-per-firing-day"],
    }));
  return (
    <>
      <section className={styles.part} aria-labelledby="mass">
        <h2 id="mass">Where the mass went</h2>
        {mass === null ? (
          <p>No load has both weights, so it cannot be told.</p>
        ) : (
          <>
            <ChartFigure
              chart={massParts(`Loads with both weights, ${spanInWords(period.from, period.to)}`, mass.parts)}
            />
            <p className={styles.read}>{mass.says}</p>
          </>
        )}
      </section>
      <section className={styles.part} aria-labelledby="heat">
        <h2 id="heat">Heat against its floor</h2>
        {lines.length === 0 ? (
          <p>
            No fuel can be laid against what was dried. Log gas, wood or charcoal by weight, or the day on which a
            cylinder was changed.
          </p>
        ) : (
          <ChartFigure
            chart={heatAgainstFloor("MJ per kg driven off, month by month", lines, months[0]?.fuel.floorMjPerKg ?? 0)}
          />
        )}
      </section>
    </>
  );
}
