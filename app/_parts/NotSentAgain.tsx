import type { BatchNamed } from "#server/terms/difference";
import { WHYS } from "#server/terms/history";
import { counted } from "../_words/days";
import { batchInWords, WHY_WORDS } from "../_words/difference";
import styles from "./Difference.module.css";
import field from "./Form.module.css";

/** So many are shown to be ticked one by one. */
const SHOWN = 40;
/** So few stand open; more would push what needs an answer off a phone. */
const FEW = 5;

interface Props {
  readonly vanished: readonly BatchNamed[];
  /** the log changes something, so that a reason has something to stand behind */
  readonly changes: boolean;
  readonly form: string;
  readonly ticked: ReadonlySet<string>;
  readonly said: { readonly why: string; readonly words: string };
}

/** Loads of the same days that are not in the log: they stay, unless ticked. And why the log says something else. */
export function NotSentAgain({ vanished, changes, form, ticked, said }: Props) {
  if (vanished.length === 0 && !changes) return null;
  const isFew = vanished.length <= FEW;
  const hasTicks = ticked.has("all") || vanished.some(({ id }) => ticked.has(id));
  return (
    <>
      {vanished.length === 0 ? null : (
        <fieldset className={styles.gone}>
          <legend>{counted(vanished.length, "load")} of these days not in this log</legend>
          <p>They stay as they are. Tick what should not count any more; it stays on record.</p>
          <details open={isFew || hasTicks}>
            <summary>{isFew ? "Which" : `Choose among the ${vanished.length.toLocaleString("en-GB")}`}</summary>
            {vanished.slice(0, SHOWN).map((batch) => (
              <label key={batch.id} className={field.choice}>
                <input
                  type="checkbox"
                  name={`gone:${batch.id}`}
                  value="yes"
                  form={form}
                  defaultChecked={ticked.has(batch.id)}
                />
                <span>
                  <bdi>{batchInWords(batch)}</bdi>
                </span>
              </label>
            ))}
            {isFew ? null : (
              <label className={field.choice}>
                <input type="checkbox" name="gone:all" value="yes" form={form} defaultChecked={ticked.has("all")} />
                <span>All {vanished.length.toLocaleString("en-GB")} of them</span>
              </label>
            )}
          </details>
        </fieldset>
      )}
      <div className={field.field}>
        <label htmlFor="why">Why does this log say something else?</label>
        <p className={field.hint} id="why-hint">
          {vanished.length === 0
            ? "It is kept with the change."
            : "It is kept with the change. Needed where a load is ticked."}
        </p>
        <select
          id="why"
          name="why"
          className={field.control}
          form={form}
          defaultValue={said.why}
          aria-describedby="why-hint"
        >
          <option value="">Choose a reason</option>
          {WHYS.map((why) => (
            <option key={why} value={why}>
              {WHY_WORDS[why]}
            </option>
          ))}
        </select>
      </div>
      <div className={field.field}>
        <label htmlFor="whyWords">In your own words</label>
        <input
          id="whyWords"
          name="whyWords"
          className={field.control}
          form={form}
          maxLength={300}
          defaultValue={said.words}
        />
      </div>
    </>
  );
}
