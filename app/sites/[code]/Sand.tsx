import type { Sand as SandSaid } from "#server/jobs/siteOverTime";
import { ChartFigure } from "../../_charts/ChartFigure";
import { type PanSand, sandAge } from "../../_charts/sandAge";
import { counted, listInWords } from "../../_words/days";
import styles from "./page.module.css";

interface Props {
  readonly sand: SandSaid;
  readonly period: { readonly from: string; readonly to: string };
}

/** How old the sand of each pan is; of pans whose new sand was never logged it is said that nobody knows. */
export function Sand({ sand, period }: Props) {
  const { pans, limit, withoutPan } = sand;
  const aged: readonly PanSand[] = pans
    .map(({ pan, days }) => ({ pan, days: days.flatMap(({ day, loads }) => (loads === null ? [] : [{ day, loads }])) }))
    .filter(({ days }) => days.length > 0);
  const unknown = pans.filter(({ pan }) => aged.every((one) => one.pan !== pan)).map(({ pan }) => pan);
  if (pans.length === 0 && withoutPan === 0) return null;
  return (
    <section className={styles.part} aria-labelledby="sand">
      <h2 id="sand">Age of the sand</h2>
      {aged.length === 0 ? null : (
        <ChartFigure chart={sandAge("Loads since new sand", period.from, period.to, aged, limit)} />
      )}
      {unknown.length === 0 ? null : (
        <p>
          Not known of {unknown.length === 1 ? "pan" : "pans"} {listInWords(unknown)}: no new sand was logged in these
          months or in the twelve before.
        </p>
      )}
      {withoutPan === 0 ? null : (
        <p>
          {counted(withoutPan, "load")} {withoutPan === 1 ? "names" : "name"} no pan, so nobody knows whose sand{" "}
          {withoutPan === 1 ? "it" : "they"} aged{aged.length === 0 ? "" : "; the ages above are at the least"}.
        </p>
      )}
    </section>
  );
}
