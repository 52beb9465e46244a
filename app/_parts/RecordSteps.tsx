import type { Completeness } from "#server/measures/completeness";
import { whyNone } from "../_words/figures";
import { recordRemarks, recordSteps } from "../_words/record";
import styles from "./RecordSteps.module.css";

/** Owed, here, in time, usable: the way from what a site should have logged to what a figure can rest on. */
export function RecordSteps({ record }: { readonly record: Completeness }) {
  const steps = recordSteps(record);
  const widest = Math.max(...steps.map(({ count }) => count ?? 0), 1);
  return (
    <>
      <ol className={styles.steps}>
        {steps.map(({ name, count, says }) => (
          <li key={name}>
            <span className={styles.name}>{name}</span>
            <span className={styles.count}>{count === null ? "not known" : count.toLocaleString("en-GB")}</span>
            <span className={styles.bar} aria-hidden="true">
              <span
                className={styles[name.replace(" ", "")]}
                style={{ inlineSize: `${((count ?? 0) / widest) * 100}%` }}
              />
            </span>
            <span className={styles.says}>{says}</span>
          </li>
        ))}
      </ol>
      <ul className={styles.remarks}>
        {recordRemarks(record).map((remark) => (
          <li key={remark}>{remark}</li>
        ))}
      </ul>
    </>
  );
}

/** The same in the room of a cell. */
export function RecordShort({ record }: { readonly record: Completeness }) {
  const { owed, here, inTime, usable } = record;
  const most = Math.max(owed.count ?? 0, here, 1);
  if (owed.count === 0 && here === 0) return <span className={styles.more}>{whyNone(owed.why ?? "nothing-owed")}</span>;
  const parts = { here, inTime, usable: usable["dry-yield"] };
  return (
    <span className={styles.short}>
      <span className={styles.main}>
        {here} {owed.count === null ? owed.of : `of ${owed.count} ${owed.of}`}
      </span>
      <span className={styles.thin} aria-hidden="true">
        {Object.entries(parts).map(([step, count]) => (
          <span key={step} style={{ inlineSize: `${(count / most) * 100}%` }} />
        ))}
      </span>
      <span className={styles.more}>
        here; {inTime} in time, {usable["dry-yield"]} usable
        {owed.count === null ? "; owed not declared" : ""}
      </span>
    </span>
  );
}
