import type { ReactElement } from "react";
import type { Figure } from "#server/terms/figure";
import { across } from "./chart";
import styles from "./charts.module.css";
import { placeOn, type Scale } from "./scale";

export interface Dot {
  readonly figure: Figure;
  /** the figure rests on little */
  readonly hollow: boolean;
  readonly scale: Scale;
  /** middle half of the sites that it is compared with */
  readonly band: { readonly low: number; readonly high: number } | null;
  /** their own values, drawn as short strokes where they are too few for a band */
  readonly peers: readonly number[];
  /** below it physics allows nothing: drawn as ground */
  readonly floor: number | null;
  /** what the programme promised or wishes for */
  readonly target: number | null;
}

export const DOT_HEIGHT = 30;
const MIDDLE = DOT_HEIGHT / 2;

/** One figure on the scale of its column: a dot with its interval over the middle half of its like. */
export function dotCell(dot: Dot, label: string): ReactElement {
  return (
    <svg className={styles.picture} height={DOT_HEIGHT} role="img" aria-label={label}>
      {dotMarks(dot)}
    </svg>
  );
}

/** The same without a frame of its own, for a chart that stacks several. */
export function dotMarks({ figure, hollow, scale, band, peers, floor, target }: Dot): ReactElement {
  const x = (value: number) => across(placeOn(scale, value));
  const width = (low: number, high: number) => across(placeOn(scale, high) - placeOn(scale, low));
  return (
    <>
      <line className={styles.track} x1="0" x2="100%" y1={MIDDLE} y2={MIDDLE} />
      {band === null ? null : (
        <rect
          className={styles.band}
          x={x(band.low)}
          width={width(band.low, band.high)}
          y={3}
          height={DOT_HEIGHT - 6}
        />
      )}
      {band !== null
        ? null
        : peers.map((value) => (
            <line key={value} className={styles.peer} x1={x(value)} x2={x(value)} y1={MIDDLE - 5} y2={MIDDLE + 5} />
          ))}
      {floor === null ? null : <Ground x={x(floor)} />}
      {target === null ? null : (
        <svg x={x(target)} overflow="visible" aria-hidden="true">
          <line className={styles.target} y1={0} y2={DOT_HEIGHT} />
          <path className={styles.filled} d="M-5 0H5L0 6Z" />
        </svg>
      )}
      {figure.known ? <DotWithInterval figure={figure} hollow={hollow} scale={scale} /> : null}
    </>
  );
}

function DotWithInterval({ figure, hollow, scale }: Pick<Dot, "hollow" | "scale"> & { readonly figure: Figure }) {
  if (!figure.known) return null;
  const { value, interval } = figure;
  const x = (at: number) => across(placeOn(scale, at));
  const on = (at: number) => at >= scale.low && at <= scale.high;
  return (
    <>
      {interval === null ? null : (
        <>
          <line className={styles.reach} x1={x(interval.low)} x2={x(interval.high)} y1={MIDDLE} y2={MIDDLE} />
          {[interval.low, interval.high].filter(on).map((end) => (
            <line key={end} className={styles.cap} x1={x(end)} x2={x(end)} y1={MIDDLE - 4} y2={MIDDLE + 4} />
          ))}
        </>
      )}
      <circle className={hollow ? styles.hollow : styles.dot} cx={x(value)} cy={MIDDLE} r={5} />
    </>
  );
}

/** A wall with ground behind it, on the side where nothing can be. */
function Ground({ x }: { readonly x: string }) {
  return (
    <svg x={x} overflow="visible" aria-hidden="true">
      <line className={styles.floor} y1={0} y2={DOT_HEIGHT} />
      <path className={styles.floor} d="M0 4l-5 5M0 12l-5 5M0 20l-5 5" />
    </svg>
  );
}
