import { FUELS } from "#server/terms/fuel";
import { Choice } from "../../_parts/Choice";
import { Field, type Wrong } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { LANGUAGE_WORDS, WEEKDAYS } from "../../_words/facts";
import { FUEL_WORDS } from "../../_words/fuel";
import { METHOD_WORDS } from "../../_words/methods";

interface Props {
  readonly typed: Readonly<Record<string, string>>;
  readonly wrong: Wrong;
  readonly today: string;
}

/** What a site needs before its first log, and what helps to read it. */
export function SiteFields({ typed, wrong, today }: Props) {
  const text = (
    id: string,
    label: string,
    hint: string,
    more: { needed?: boolean; mode?: "numeric" | "decimal" } = {},
  ) => (
    <Field id={id} label={label} hint={hint} wrong={wrong[id]}>
      {(given) => (
        <input {...given} defaultValue={typed[id]} required={more.needed} inputMode={more.mode} autoComplete="off" />
      )}
    </Field>
  );
  const choice = (id: string, label: string, words: Readonly<Record<string, string>>) => (
    <Field id={id} label={label} wrong={wrong[id]}>
      {(given) => (
        <select {...given} defaultValue={typed[id] ?? ""}>
          <option value="">Not declared</option>
          {Object.entries(words).map(([value, says]) => (
            <option key={value} value={value}>
              {says}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  return (
    <>
      {text("code", "Code", "Short and for good, such as OJ: 1 to 20 letters, digits or hyphens.", { needed: true })}
      {text("name", "Name", "As people say it, such as Old Jetty.", { needed: true })}
      <Field id="from" label="Open since" wrong={wrong.from}>
        {(given) => <input {...given} type="date" defaultValue={typed.from ?? today} required />}
      </Field>
      {text("zone", "Time zone", "Such as Africa/Mombasa or Asia/Jakarta. It decides which day a load belongs to.")}
      {choice("language", "Language of its logs", LANGUAGE_WORDS)}
      {choice("method", "Way of drying", METHOD_WORDS)}
      {text("pans", "Pans", "How many can be on the fire at once.", { mode: "numeric" })}
      {text("hours", "Hours a day", "For which the fires can burn.", { mode: "decimal" })}
      {choice("fuel", "Main fuel", Object.fromEntries(FUELS.map((fuel) => [fuel, FUEL_WORDS[fuel]])))}
      {choice("mass", "Weights without a unit are", { kg: "kg", g: "g", lb: "pounds (lb)" })}
      <fieldset className={form.choices}>
        <legend>Days on which it dries</legend>
        <div className={form.row}>
          {WEEKDAYS.map((day, at) => (
            <Choice
              key={day}
              kind="checkbox"
              name={`weekday${at + 1}`}
              value="yes"
              checked={typed[`weekday${at + 1}`] === "yes"}
            >
              {day}
            </Choice>
          ))}
        </div>
      </fieldset>
      {text(
        "perDay",
        "Loads on such a day",
        "What the site is to log; without it nobody can say how complete its record is.",
        {
          mode: "numeric",
        },
      )}
      {text("due", "Log due by day of the month after", "From 1 to 28.", { mode: "numeric" })}
    </>
  );
}
