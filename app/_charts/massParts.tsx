import { valueInWords } from "../_words/figures";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";

/** Where fresh mass went, in kg; `unexplained` is dry matter that is neither in the product nor water, where that can be told. */
export interface MassParts {
  readonly driedKg: number;
  readonly waterKg: number;
  readonly unexplainedKg: number | null;
}

const HEIGHT = 44;

/** One bar: fresh in = dried out + water + unexplained. Filled, striped and open, so that it reads without colour. */
export function massParts(title: string, { driedKg, waterKg, unexplainedKg }: MassParts): Chart {
  const whole = driedKg + waterKg + (unexplainedKg ?? 0);
  const parts = [
    { name: "dried out", look: "filled", kg: driedKg },
    { name: "water driven off", look: "striped", kg: waterKg },
    ...(unexplainedKg === null ? [] : [{ name: "unexplained", look: "open", kg: unexplainedKg }]),
  ] as const;
  const starts = parts.map((_, i) => parts.slice(0, i).reduce((sum, part) => sum + part.kg, 0));
  const share = (kg: number) => (whole > 0 ? (100 * kg) / whole : 0);
  const said = (kg: number) => `${valueInWords(kg, "kg")} (${share(kg).toFixed(0)} %)`;
  const long = `${valueInWords(whole, "kg")} fresh in = ${parts.map(({ name, kg, look }) => `${said(kg)} ${name} (${look})`).join(" + ")}.`;
  return {
    short: title,
    long,
    table: {
      caption: title,
      head: ["Part", "kg", "Share of fresh in"],
      rows: parts.map(({ name, kg }) => [name, valueInWords(kg, "kg"), `${share(kg).toFixed(1)} %`]),
    },
    picture: (
      <svg className={styles.picture} height={HEIGHT} role="img" aria-label={title}>
        {parts.map(({ name, look, kg }, i) => (
          <svg
            key={name}
            x={across(share(starts[i]!))}
            width={across(share(kg))}
            height={HEIGHT}
            overflow="hidden"
            aria-hidden="true"
          >
            <rect
              className={look === "filled" ? styles.filled : look === "striped" ? styles.outlined : styles.open}
              x={1}
              y={1}
              width="100%"
              height={HEIGHT - 2}
            />
            {look === "striped" ? <Stripes /> : null}
          </svg>
        ))}
      </svg>
    ),
  };
}

const STRIPES = Array.from({ length: 24 }, (_, i) => across(i * 4.2));

/** Slanted strokes by the percent, so that they are as wide as the part. */
function Stripes() {
  return STRIPES.map((x) => (
    <svg key={x} x={x} overflow="visible" aria-hidden="true">
      <line className={styles.striped} x1={0} y1={HEIGHT - 2} x2={12} y2={2} />
    </svg>
  ));
}
