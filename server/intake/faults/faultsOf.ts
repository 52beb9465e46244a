import type { Fault } from "#server/terms/fault";
import type { Hints, ReadingOnGrid } from "#server/terms/row";
import { cylinderGained, yearsMistyped } from "./cellsOdd";
import { containerInBoth } from "./container";
import { rowsCopied } from "./copied";
import { inOutExchanged, sandInDried } from "./exchanged";
import { bySheet } from "./loads";
import { weighedTogether } from "./together";
import { gramsForKilograms, poundsForKilograms } from "./units";
import { driedWorkedOut } from "./workedOut";

/**
 * The faults of which a log shows the signature, each with its evidence, its effect on the yield, and what a person's yes
 * would add to the answers. Nothing is changed by it: the log stays as it was written until somebody answers.
 *
 * A log whose in and out are exchanged, or that still holds its sand, is not judged any further: its weights say nothing else.
 */
export function faultsOf(reading: ReadingOnGrid, hints: Hints): Fault[] {
  const isEra = reading.questions.some(({ code }) => code === "years-of-log");
  return [...bySheet(reading)].flatMap(([sheet, rows]) => {
    const cells = [...cylinderGained(sheet, rows), ...(isEra ? [] : yearsMistyped(sheet, rows))];
    const whole = [...inOutExchanged(sheet, rows), ...sandInDried(sheet, rows)];
    if (whole.length > 0) return [...whole, ...cells];
    return [
      ...gramsForKilograms(sheet, rows),
      ...poundsForKilograms(sheet, rows, hints),
      ...containerInBoth(sheet, rows),
      ...rowsCopied(sheet, rows),
      ...driedWorkedOut(sheet, rows),
      ...weighedTogether(sheet, rows),
      ...cells,
    ];
  });
}
