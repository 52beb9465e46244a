import type { Unit } from "#server/terms/figure";
import { numberInWords, valueInWords } from "../_words/figures";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";
import { placeOn, type Scale } from "./scale";
import { ticksOn } from "./ticks";

/** A site in a funnel; sites that may not be called outside are drawn as any other. */
export interface FunnelDot {
  readonly name: string;
  readonly value: number;
  /** what it was worked out from, in the measure's own divisor */
  readonly mass: number;
  readonly inner: { readonly low: number; readonly high: number };
  readonly outer: { readonly low: number; readonly high: number };
  readonly outside: boolean;
}

const HEIGHT = 240;
const FOOT = 30;
/** Names of more sites would lie on each other; then only those outside are named, and the table names all. */
const MOST_NAMED = 8;

/** Sites against how much they were worked out from, with the limits within which they lie by chance. */
export function funnelChart(
  title: string,
  dots: readonly FunnelDot[],
  { target, unit, mass }: { readonly target: number; readonly unit: Unit; readonly mass: string },
): Chart {
  const sorted = [...dots].sort((a, b) => a.mass - b.mass);
  const up: Scale = wide(sorted.flatMap(({ value, outer }) => [value, outer.low, outer.high]));
  const along: Scale = wide(sorted.map((dot) => dot.mass));
  const x = (value: number) => 4 + placeOn(along, value) * 0.94;
  const y = (value: number) => HEIGHT - FOOT - (placeOn(up, value) / 100) * (HEIGHT - FOOT - 8);
  const edges = (["low", "high"] as const).flatMap((side) =>
    (["inner", "outer"] as const).map((which) => ({ side, which })),
  );
  const out = sorted.filter(({ outside }) => outside);
  return {
    short: title,
    long: `Sites further to the right were worked out from more ${mass}. The line is their common value, ${valueInWords(target, unit)}; between the dashed lines 998 of 1,000 sites would lie by chance. ${
      out.length === 0 ? "None lies outside." : `Outside: ${out.map(({ name }) => name).join(", ")}.`
    }`,
    table: {
      caption: title,
      head: ["Site", mass, "Value", "95 % limits", "99.8 % limits"],
      rows: sorted.map(({ name, value, mass: own, inner, outer }) => [
        name,
        own.toLocaleString("en-GB", { maximumFractionDigits: 0 }),
        valueInWords(value, unit),
        `${numberInWords(inner.low, unit)} to ${numberInWords(inner.high, unit)}`,
        `${numberInWords(outer.low, unit)} to ${numberInWords(outer.high, unit)}`,
      ]),
    },
    picture: (
      <svg className={styles.picture} height={HEIGHT} role="img" aria-label={title}>
        {ticksOn(up, 4).map((tick) => (
          <g key={tick}>
            <line className={styles.grid} x1="4%" x2="99%" y1={y(tick)} y2={y(tick)} />
            <text className={styles.halo} x="99%" y={y(tick) - 3} textAnchor="end">
              {numberInWords(tick, unit)}
            </text>
          </g>
        ))}
        <line className={styles.level} x1="4%" x2="99%" y1={y(target)} y2={y(target)} />
        {edges.flatMap(({ side, which }) =>
          sorted
            .slice(1)
            .map((dot, i) => (
              <line
                key={`${side} ${which} ${dot.name}`}
                className={which === "inner" ? styles.limit : styles.outerLimit}
                x1={across(x(sorted[i]!.mass))}
                x2={across(x(dot.mass))}
                y1={y(sorted[i]![which][side])}
                y2={y(dot[which][side])}
              />
            )),
        )}
        {sorted.map(({ name, value, mass: own, outside }) => (
          <g key={name}>
            <circle className={styles.dot} cx={across(x(own))} cy={y(value)} r={outside ? 6 : 4} />
            {outside || sorted.length <= MOST_NAMED ? (
              <text
                className={styles.halo}
                x={across(x(own))}
                y={y(value) - 9}
                textAnchor={x(own) > 80 ? "end" : "start"}
              >
                {name}
              </text>
            ) : null}
          </g>
        ))}
        {ticksOn(along, 3).map((tick) => (
          <text key={tick} className={styles.words} x={across(x(tick))} y={HEIGHT - 14} textAnchor="middle">
            {tick.toLocaleString("en-GB")}
          </text>
        ))}
        <text className={styles.words} x="4%" y={HEIGHT - 1}>
          {mass}
        </text>
      </svg>
    ),
  };
}

function wide(values: readonly number[]): Scale {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const margin = high > low ? (high - low) * 0.08 : Math.abs(high) * 0.1 || 1;
  return { low: low - margin, high: high + margin };
}
