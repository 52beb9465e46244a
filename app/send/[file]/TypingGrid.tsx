import { TYPED_COLUMNS, TYPED_FUELS, TYPED_MASS_UNITS, type TypedColumn } from "#server/api/typing";
import { EnterGoesDown } from "../../_client/EnterGoesDown";
import { Complaints, Field, Second, Submit, type Wrong } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { MOST_LINES, type Typed } from "../typing";
import styles from "./TypingGrid.module.css";

interface Props {
  readonly file: string;
  readonly lines: number;
  readonly typed: Typed | null;
  readonly wrong: Wrong;
}

const NUMBERS: readonly TypedColumn[] = ["fresh", "dried", "fuel"];

/** A plain grid beside a picture: a line here for each line there, cells as they are written there. */
export function TypingGrid({ file, lines, typed, wrong }: Props) {
  const massUnit = typed?.massUnit ?? "kg";
  const said: Readonly<Record<TypedColumn, string>> = {
    day: "Date",
    number: "Batch",
    pan: "Pan",
    fresh: "Fresh",
    dried: "Dried",
    minutes: "Minutes",
    fuel: "Fuel",
    remarks: "Remarks",
  };
  return (
    <form method="post" action={`/send/${file}/typed`}>
      {/* the first button is what Enter means without script: all that was typed stays, and the next line has the focus */}
      <button className={styles.enter} type="submit" name="next" value="stay" tabIndex={-1} aria-hidden="true">
        Go on typing
      </button>
      <h2 id="grid">Type what stands in it</h2>
      <Complaints wrong={wrong} />
      <p>
        Line 1 here is line 1 there. Write each cell as it is written in the picture; leave empty what is empty or
        cannot be read. A date that stands over several lines is needed once.
      </p>
      <input type="hidden" name="lines" value={lines} />
      <input type="hidden" name="at" defaultValue="day" />
      <div className={form.row}>
        <Field id="massUnit" label="Weights are in">
          {(given) => (
            <select {...given} defaultValue={massUnit}>
              {TYPED_MASS_UNITS.map((unit) => (
                <option key={unit}>{unit}</option>
              ))}
            </select>
          )}
        </Field>
        <Field id="fuel" label="Fuel is">
          {(given) => (
            <select {...given} defaultValue={typed?.fuel ?? TYPED_FUELS[0]}>
              {TYPED_FUELS.map((fuel) => (
                <option key={fuel}>{fuel}</option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <EnterGoesDown>
        <ol className={styles.lines}>
          {Array.from({ length: lines }, (_, at) => at + 1).map((line) => (
            <li key={line} id={`line-${line}`} className={styles.line}>
              <fieldset>
                <legend>Line {line}</legend>
                {TYPED_COLUMNS.map((column) => (
                  <label key={column} className={styles[column]}>
                    <span>{said[column]}</span>
                    <input
                      id={`${line}.${column}`}
                      name={`${line}.${column}`}
                      defaultValue={typed?.lines.find((one) => one.line === line)?.cells[column]}
                      maxLength={300}
                      autoComplete="off"
                      enterKeyHint="next"
                      inputMode={NUMBERS.includes(column) ? "decimal" : undefined}
                    />
                  </label>
                ))}
              </fieldset>
            </li>
          ))}
        </ol>
      </EnterGoesDown>
      <p className={form.buttons}>
        {lines < MOST_LINES ? (
          <Second name="next" value="more">
            More lines
          </Second>
        ) : null}
        <Submit name="next" value="keep">
          Look at what was typed
        </Submit>
      </p>
      <p>What is typed is kept as a log of its own. Each of its rows names this picture and the line in it.</p>
    </form>
  );
}
