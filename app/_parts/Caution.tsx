import { BEFORE_FIRE, BEFORE_PACKING, DEFER } from "../_words/cautions";
import styles from "./Caution.module.css";

/** What to mind when somebody is about to light a fire. */
export function CautionBeforeFire() {
  return <Caution title="Caution, before you light the fire" sentences={BEFORE_FIRE} />;
}

/** What to mind when somebody is about to pack. */
export function CautionBeforePacking() {
  return <Caution title="Caution, before you pack" sentences={BEFORE_PACKING} />;
}

function Caution({ title, sentences }: { readonly title: string; readonly sentences: readonly string[] }) {
  return (
    <aside className={styles.caution} aria-label={title}>
      <h2>{title}</h2>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <p>{DEFER}</p>
    </aside>
  );
}
