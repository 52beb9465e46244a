import type { MassBalance } from "#server/measures/massBalance";
import { numberInWords, valueInWords } from "../_words/figures";
import { FigureText } from "./FigureText";
import styles from "./MonthSheet.module.css";

/** Where the mass went: fresh in = dried out + driven off, and what that says of the moisture that is left. */
export function MassBalanceOf({ balance }: { readonly balance: MassBalance }) {
  const { masses, dryMatter, impliedMoisture, moistureBand, solidsLossAtLeast } = balance;
  return (
    <section className={styles.part} aria-labelledby="mass">
      <h2 id="mass">Where the mass went</h2>
      {masses === null ? (
        <p>No load has both weights, so it cannot be told.</p>
      ) : (
        <>
          <div className={styles.strip} aria-hidden="true">
            <span className={styles.dried} style={{ flexGrow: masses.driedKg }} />
            <span className={styles.off} style={{ flexGrow: Math.max(0, masses.drivenOffKg) }} />
          </div>
          <p>
            Of the loads with both weights: {valueInWords(masses.freshKg, "kg")} fresh in ={" "}
            {valueInWords(masses.driedKg, "kg")} dried out (filled) + {valueInWords(masses.drivenOffKg, "kg")} driven
            off (striped).
          </p>
        </>
      )}
      <dl className={styles.parts}>
        <div>
          <dt>Moisture left, if only water went</dt>
          <dd>
            <FigureText figure={impliedMoisture} />
          </dd>
        </div>
        {moistureBand === null ? null : (
          <div>
            <dt>Where it may lie, the dry matter being {dryMatter.basis === "assumed" ? "assumed" : "not declared"}</dt>
            <dd>
              {numberInWords(moistureBand.low, "share")} to {valueInWords(moistureBand.high, "share")}
            </dd>
          </div>
        )}
        {solidsLossAtLeast === null ? null : (
          <div>
            <dt>Dry matter lost at the least</dt>
            <dd>
              <FigureText figure={solidsLossAtLeast} />
            </dd>
          </div>
        )}
        {dryMatter.basis === "not-declared" ? null : (
          <div>
            <dt>Dry matter of the fresh larvae, {dryMatter.basis}</dt>
            <dd>{valueInWords(dryMatter.share, "share")}</dd>
          </div>
        )}
      </dl>
    </section>
  );
}
