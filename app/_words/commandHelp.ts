/** What `watch --help` and `runlength --help` print. */
export const WATCH_HELP = `watch FILE.csv [--chart drift|individuals|ewma|cusum] [options]

Watches a dated series for change. The file has the columns day, value; or day, numerator, denominator, whose rows of one
day are added up. Days are written 2031-03-31; the order of rows and columns does not matter. Files with semicolons, tabs,
or as XLSX are read too.

--chart drift (also without --chart): each day against what earlier days lead to expect, and an EWMA of these scores.
  --accept N   false alarms a month that this series may raise (1)
  --limit L    limit of the chart in its own standard deviations, in the place of the one that follows from --accept
  --spike S    score from which a single day is asked about, likewise
  --omega O --rho R   lasting part of a day's luck and its correlation from day to day (ratios 0.6 and 0.4, values 0 and 0)
  --d0 D --s2 V       what is known beforehand of the variance: as if D squared deviations with mean V had been seen (0, 0)
  --learn N --lambda L --clamp C   days of learning (12), weight of the newest day (0.1), most that a score counts for (3)
--chart individuals: single values, limits from the distances of neighbours, or from --target and --spread.
  --limit L    limits in standard deviations (3), or --accept N
--chart ewma: needs --target, --spread and --lambda.
  --limit L    limits in standard deviations of the chart (3), or --accept N; --widening for limits that widen at first
--chart cusum: needs --target and --allowance, in the values' own unit.
  --limit H    limit of the sums in the values' own unit; or --accept N with --spread

--json prints {chart, parameters, points, signals, leftOut}. Each point has day, value, score (in standard deviations),
statistic (what the chart draws), low and high (its limits); each signal day, since, size and direction, where size is the
mean of the values since then less the target, or, with --chart drift, the change as a share of the level before (of plain
values: the change itself). leftOut are days that could not be used: ratios of which there is no logarithm.
`;

export const RUN_LENGTH_HELP = `runlength --chart ewma|cusum|individuals --limit L | --mean M [options]

How many points a two-sided chart takes until it signals, the signalling point included: {mean, median, p5, p25, p75, p95}.
Scores are independent and standard normal, their mean moved by --shift.

  --limit L      limit: for ewma in standard deviations of the chart, for cusum and individuals in those of the scores
  --mean M       in the place of --limit: the limit whose mean is M when nothing has changed is worked out and printed
  --shift S      how far the mean of the scores has moved, in standard deviations (0)
  --begun zero|calm   the change comes with the first point (zero), or after a long calm without a signal (calm)
  --lambda L     ewma: weight of the newest point (0.1)
  --clamp C      ewma: scores count for no more than this (without it they are not held)
  --allowance K  cusum: what is taken off each score (0.5)

--json prints {chart, limit, shift, mean, median, p5, p25, p75, p95}.
`;
