import type { FuelReport } from "#server/measures/fuelReport";
import type { Figure } from "#server/terms/figure";
import { counted, spanInWords } from "../_words/days";
import { valueInWords } from "../_words/figures";
import { amountInWords, FUEL_WORDS, fuelSpanInWords, HOW_WORDS } from "../_words/fuel";
import { FigureText } from "./FigureText";
import styles from "./MonthSheet.module.css";

const MOST = 8;

/** The fuel of a month: how much, the heat against what water needs, and on which days it can be laid against what was dried. */
export function FuelOfMonth({ fuel, intensity }: { readonly fuel: FuelReport; readonly intensity: Figure }) {
  const { used, windows, pending, leftOut, atMost, floorMjPerKg } = fuel;
  const most = Math.max(floorMjPerKg, intensity.known ? intensity.value : 0);
  return (
    <section className={styles.part} aria-labelledby="fuel">
      <h2 id="fuel">The fuel</h2>
      {used.length === 0 ? (
        <p>
          No fuel is known for this month. Log gas, wood or charcoal by weight, or the day on which a cylinder was
          changed.
        </p>
      ) : null}
      <ul className={styles.list}>
        {used.map(({ fuel: name, unit, low, best, high, how, shared }) => (
          <li key={`${name} ${unit}`}>
            {FUEL_WORDS[name]}: {amountInWords(low, best, high, unit)}, {how.map((one) => HOW_WORDS[one]).join(", ")}
            {shared ? ", shared with the kitchen" : ""}
          </li>
        ))}
      </ul>
      {intensity.known ? (
        <>
          <div className={styles.heat} aria-hidden="true">
            <span className={styles.burned} style={{ inlineSize: `${(intensity.value / most) * 100}%` }} />
            <span className={styles.floor} style={{ inlineSize: `${(floorMjPerKg / most) * 100}%` }} />
          </div>
          <p>
            {valueInWords(intensity.value, "MJ/kg")} driven off (filled), against {valueInWords(floorMjPerKg, "MJ/kg")}{" "}
            that water needs at the least (outlined). The floor is a line to draw, not a target.
          </p>
        </>
      ) : null}
      {atMost["driven-off"] === null ? null : (
        <p>
          With the fuel that the kitchen shares, at the most: <FigureText figure={atMost["driven-off"]} />
        </p>
      )}
      {windows.length === 0 ? null : (
        <details>
          <summary>
            {counted(windows.length, "fuel window")}: days that belong together because a fuel reading ties them
          </summary>
          <ul className={styles.list}>
            {windows.map(({ from, to, days, loads, unusable }) => (
              <li key={from}>
                {spanInWords(from, to)}: {counted(loads, "load")} on {counted(days.length, "day")}
                {leftDays(unusable)}
              </li>
            ))}
          </ul>
        </details>
      )}
      {pending.length + leftOut.length === 0 ? null : (
        <ul className={styles.list}>
          {pending.slice(0, MOST).map((span) => (
            <li key={`${span.fuel} ${span.from}`}>Still open: {fuelSpanInWords(span)}.</li>
          ))}
          {leftOut.slice(0, MOST).map(({ span }) => (
            <li key={`${span.fuel} ${span.from} ${span.to}`}>Left out: {fuelSpanInWords(span)}.</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function leftDays(unusable: FuelReport["windows"][number]["unusable"]): string {
  const said = [
    [unusable.open, "with a fuel still open"],
    [unusable.shared, "shared with the kitchen"],
    [unusable["several-methods"], "with several ways of drying"],
  ] as const;
  return said.flatMap(([count, why]) => (count === 0 ? [] : [`; ${counted(count, "day")} ${why}, left out`])).join("");
}
