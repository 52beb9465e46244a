import type { SignalTold } from "#server/api/signals";
import type { SiteOverTime } from "#server/jobs/siteOverTime";
import type { Step } from "#server/measures/overTime";
import { ChartFigure } from "../../_charts/ChartFigure";
import { timePanels } from "../../_charts/timePanels";
import { Behind } from "../../_parts/Behind";
import { closerPanels } from "./closerOf";
import { LookCloser } from "./LookCloser";
import styles from "./page.module.css";
import { eventsOf, panelsOf } from "./panelsOf";
import { Steps } from "./Steps";

interface Props {
  readonly past: SiteOverTime;
  readonly signals: readonly SignalTold[];
  readonly behind: boolean;
  readonly floorMjPerKg: number | null;
}

const STEP_WORDS: Record<Step, string> = {
  day: "A dot for each day, of fuel for the fuel readings that end on it",
  week: "A dot for each week, of fuel for the fuel readings that end in it, with its interval by day",
  month: "A dot for each month, of fuel for the fuel readings that end in it, with its interval by day",
};

/** The site's panels on one axis, with what happened as rules through all of them, and the steps that were told. */
export function OverTime({ past, signals, behind, floorMjPerKg }: Props) {
  const { from, to } = past.period;
  const panels = panelsOf(past, signals, floorMjPerKg);
  const events = eventsOf(past);
  const chart = timePanels("The site over time", from, to, panels, events);
  const closer = { short: chart.short, long: chart.long, from, to, panels: closerPanels(panels), events };
  return (
    <section className={`${styles.part} ${styles.over}`} aria-labelledby="time">
      <h2 id="time">Over time</h2>
      <p className={styles.read}>
        {STEP_WORDS[past.step]}. Hollow: fewer than {(past.usableMark * 100).toFixed(0)} % of what was owed could be
        used. A dash on the ground: nothing was logged.
        {floorMjPerKg === null ? "" : " The line under the fuel is what water needs at the least."} Dashed in the
        record: the programme’s mark. Thick level lines: a step that was told.
      </p>
      <ChartFigure chart={{ ...chart, picture: <LookCloser closer={closer}>{chart.picture}</LookCloser> }} />
      <Behind behind={behind} />
      <Steps signals={signals} />
    </section>
  );
}
