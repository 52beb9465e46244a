import { ChartFigure } from "../_charts/ChartFigure";
import type { ChangeDrawn } from "../_charts/changeDrawn";
import { changeOverTime } from "../_charts/changeOverTime";
import { LookCloser } from "../sites/[code]/LookCloser";
import { closerOfChange } from "./closerOfChange";

/** The still picture of a series with its table, and on demand one to move about in. */
export function ChangeFigure({ drawn }: { readonly drawn: ChangeDrawn }) {
  const chart = changeOverTime(drawn);
  return (
    <ChartFigure
      chart={{ ...chart, picture: <LookCloser closer={closerOfChange(drawn, chart)}>{chart.picture}</LookCloser> }}
    />
  );
}
