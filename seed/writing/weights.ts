import { shown } from "../process/scales";
import type { Book } from "../site";
import type { Line } from "./lines";

/**
 * How the weights of a line stand on paper, slips and all. `lost` is what the language writes for a weight nobody
 * has.
 */
export function weightsOf(
  book: Book,
  mark: "." | ",",
  lost: string,
): { fresh: (line: Line) => string; dried: (line: Line) => string } {
  const { step, places, unit } = book.nature.scale;
  const written = (steps: number) => shown(steps, step, places, mark);
  const inOtherUnit = (steps: number) =>
    unit === "g" ? shown(steps, step / 1000, 3, mark) : shown(steps * 1000, step, 0, mark);
  return {
    fresh: ({ freshSteps, driedSteps, slip }) => written(slip === "swapped" ? driedSteps : freshSteps),
    dried: ({ freshSteps, driedSteps, slip }) => {
      if (slip === "lost") return lost;
      if (slip === "swapped") return written(freshSteps);
      if (slip === "other-unit") return inOtherUnit(driedSteps);
      return slip === "doubtful" ? `${written(driedSteps)}?` : written(driedSteps);
    },
  };
}

/** The sum of what stands in a column of weights; lines that say no plain number are left out. */
export function sumShown(book: Book, lines: readonly Line[], of: "freshSteps" | "driedSteps", mark: "." | ","): string {
  const { step, places } = book.nature.scale;
  const plain = lines.filter(({ slip }) => slip === null || (slip === "lost" && of === "freshSteps"));
  return shown(
    plain.reduce((sum, line) => sum + line[of], 0),
    step,
    places,
    mark,
  );
}

/** Gas or a full cylinder in steps of the site's scale, with the steel around it. */
export function gross(book: Book, gasSteps: number, mark: "." | ","): string {
  const { fuelStep, steelKg } = book.nature;
  return shown(gasSteps + Math.round(steelKg / fuelStep), fuelStep, placesOf(fuelStep), mark);
}

export function fuelShown({ nature }: Book, steps: number, mark: "." | ","): string {
  return shown(steps, nature.fuelStep, placesOf(nature.fuelStep), mark);
}

function placesOf(step: number): number {
  return step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
}
