import type { Figure } from "#server/terms/figure";
import { placeOn, type Scale } from "../_charts/scale";
import styles from "./IntervalMark.module.css";

/** Below this many the dot is hollow: the figure rests on little. */
const LITTLE = 5;

/** A dot with its interval on the scale that its column shares. The figure in words stands beside it. */
export function IntervalMark({ figure, scale }: { readonly figure: Figure; readonly scale: Scale | null }) {
  if (scale === null) return null;
  if (!figure.known) return <span className={styles.track} aria-hidden="true" />;
  const { value, interval, restsOn } = figure;
  const from = placeOn(scale, interval?.low ?? value);
  const to = placeOn(scale, interval?.high ?? value);
  return (
    <span className={styles.track} aria-hidden="true">
      <span className={styles.reach} style={{ insetInlineStart: `${from}%`, inlineSize: `${to - from}%` }} />
      <span
        className={restsOn.used < LITTLE ? styles.hollow : styles.dot}
        style={{ insetInlineStart: `${placeOn(scale, value)}%` }}
      />
    </span>
  );
}
