import type { Figure } from "#server/terms/figure";
import { figureInWords, numberInWords, valueInWords } from "../_words/figures";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";
import { columnScale } from "./columnScale";
import { dotMarks } from "./dotCell";
import { placeOn } from "./scale";

/** One line of the chart: a month or a site, with the loads that shared a preheating beside it. */
export interface HeatLine {
  readonly name: string;
  readonly intensity: Figure;
  readonly hollow: boolean;
  readonly loadsPerFiringDay: Figure;
}

const LINE = 34;

/**
 * Heat in the fuel for each kg driven off, against the least that water needs, with loads per firing day beside it.
 *
 * A dot left of the floor means that fuel is missing from the record, and not thrift.
 */
export function heatAgainstFloor(title: string, lines: readonly HeatLine[], floorMjPerKg: number): Chart {
  const scale = columnScale(
    lines.map(({ intensity, hollow }) => ({ figure: intensity, hollow })),
    [floorMjPerKg],
  );
  const below = lines.filter(({ intensity }) => intensity.known && intensity.value < floorMjPerKg);
  const floor = valueInWords(floorMjPerKg, "MJ/kg");
  return {
    short: title,
    long: `The ground at ${floor} is what water needs at the least to evaporate.${
      below.length === 0
        ? ""
        : ` Below it, fuel is missing from the record: ${below.map(({ name }) => name).join(", ")}.`
    } Loads per firing day stand at the right: they share one preheating.`,
    table: {
      caption: title,
      head: ["", "MJ per kg driven off", "Loads per firing day"],
      rows: lines.map((line) => [line.name, figureInWords(line.intensity), loadsInWords(line.loadsPerFiringDay)]),
    },
    picture: (
      <svg className={styles.picture} height={lines.length * LINE} role="img" aria-label={title}>
        {lines.map(({ name, intensity, hollow, loadsPerFiringDay }, i) => (
          <svg key={name} y={i * LINE} width="100%" height={LINE} overflow="visible" aria-hidden="true">
            <text className={styles.title} x="0" y={20}>
              {name}
            </text>
            <svg x="22%" width="54%" y={2} height={LINE} overflow="visible" aria-hidden="true">
              {scale === null
                ? null
                : dotMarks({
                    figure: intensity,
                    hollow,
                    scale,
                    band: null,
                    peers: [],
                    floor: floorMjPerKg,
                    target: null,
                  })}
              {scale !== null && intensity.known ? (
                <text className={styles.halo} x={across(placeOn(scale, intensity.value))} y={2} textAnchor="middle">
                  {numberInWords(intensity.value, "MJ/kg")}
                </text>
              ) : null}
            </svg>
            <text className={styles.words} x="100%" y={20} textAnchor="end">
              {loadsInWords(loadsPerFiringDay)}
            </text>
          </svg>
        ))}
      </svg>
    ),
  };
}

function loadsInWords(figure: Figure): string {
  return figure.known ? `${numberInWords(figure.value, "count")} a day` : "–";
}
