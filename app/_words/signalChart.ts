import type { Unit } from "#server/terms/figure";
import type { ChangeDrawn, DrawnDay } from "../_charts/changeDrawn";
import type { TimeEvent } from "../_charts/timePanels";
import { counted, dayInWords, spanInWords } from "./days";
import { numberInWords, valueInWords } from "./figures";

export const DRIFT_TITLE = "Recent days taken together";
export const SUMS_TITLE = "Added up; nothing is told from it";

/** What a day was to the watching, in a word or two. */
export const DAY_STATE_WORDS: Record<DrawnDay["state"], string> = {
  learning: "learning",
  screened: "asked about, not learnt from",
  scored: "compared",
  "far-outside": "asked about, not learnt from",
  "left-out": "left out, as was answered",
};

export const CHANGE_HEAD = ["Day", "Value", "Could have been", "Recent days together, of the limit", "What it was"];

/** Days of the chart as rows, each with what its picture shows. */
export function changeRows({ references, unit, begun }: ChangeDrawn): string[][] {
  return references.flat().map(({ day, value, low, high, chart, limit, state, raised }) => {
    const notes = [
      DAY_STATE_WORDS[state],
      ...(begun?.best === day ? ["new level from here"] : []),
      ...(raised === null ? [] : ["a signal was told"]),
    ];
    return [
      dayInWords(day),
      numberInWords(value, unit),
      couldBeInWords(low, high, unit),
      chart === null || limit === null ? "–" : `${((100 * chart) / limit).toFixed(0).replace("-", "−")} %`,
      notes.join("; "),
    ];
  });
}

/** "28.0 to 34.0"; "62 or more" where only one end is known. */
export function couldBeInWords(low: number | null, high: number | null, unit: Unit): string {
  if (low === null) return high === null ? "–" : `${numberInWords(high, unit)} or less`;
  return high === null
    ? `${numberInWords(low, unit)} or more`
    : `${numberInWords(low, unit)} to ${numberInWords(high, unit)}`;
}

/** What the picture shows, for whoever reads instead of looking. */
export function changeChartInWords(drawn: ChangeDrawn, events: readonly TimeEvent[]): string {
  const { references, levels, begun, unit } = drawn;
  const days = references.flat();
  const asked = days.filter(({ state }) => state === "far-outside" || state === "screened").length;
  const told = days.flatMap(({ day, raised, chart }) => (raised === null || chart === null ? [] : [day]));
  const [before, after] = [levels[0], levels.at(-1)];
  return [
    `Each dot is a ${drawn.point}, on the range that it could have had by what came before it (small rings: still learning).`,
    ...(asked === 0
      ? []
      : [`Diamonds: ${counted(asked, drawn.point)} far outside, asked about one by one and not learnt from.`]),
    ...(days.some(({ state }) => state === "left-out") ? ["Crosses: left out, as was answered."] : []),
    ...(before === undefined || after === undefined || before === after
      ? []
      : [
          `Thick lines: the level before, ${valueInWords(before.value, unit)}, and after, ${valueInWords(after.value, unit)}.`,
        ]),
    ...(begun === null ? [] : [begunInWords(begun)]),
    ...(days.some(({ chart }) => chart !== null)
      ? ["Below, recent days taken together: beyond a dashed limit a signal is told, and counting begins anew."]
      : []),
    ...(told.length === 0 ? [] : [`Ringed: told on ${told.map(dayInWords).join(", ")}.`]),
    ...(drawn.toldOn === null ? [] : [`Triangle: this signal was told on ${dayInWords(drawn.toldOn)}.`]),
    ...events.map(({ day, text }, i) => `${i + 1}: ${dayInWords(day)}, ${text}.`),
  ].join(" ");
}

function begunInWords({ from, to, best }: NonNullable<ChangeDrawn["begun"]>): string {
  const span = `Bracket: the days between which the new level began, ${spanInWords(from, to)}`;
  return best === null
    ? `${span}; the day itself is not determined.`
    : `${span}, most likely ${dayInWords(best)} (dotted rule).`;
}
