import type { Fact, FactKind, FactValue } from "#server/terms/facts";
import { FUEL_WORDS } from "./fuel";
import { METHOD_WORDS } from "./methods";

export const WEEKDAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] as const;

export const LANGUAGE_WORDS: Record<FactValue<"language">["language"], string> = {
  en: "English",
  fr: "Français",
  es: "Español",
  pt: "Português",
  sw: "Kiswahili",
  id: "Bahasa Indonesia",
};

type Words = {
  readonly [K in FactKind]: { readonly name: string; readonly says: (value: FactValue<K>, key: string) => string };
};

const share = (value: number) => `${(value * 100).toLocaleString("en-GB", { maximumFractionDigits: 1 })} %`;
const plain = (word: string) => word.replaceAll("-", " ");

/** Each declaration in words: what it is called and what it says. */
const WORDS: Words = {
  name: { name: "Name", says: ({ name }) => name },
  "time-zone": { name: "Time zone", says: ({ zone }) => zone },
  language: { name: "Language of its logs", says: ({ language }) => LANGUAGE_WORDS[language] },
  open: { name: "Open", says: () => "open" },
  closed: {
    name: "Closed days",
    says: ({ reason, accepted }) => `${reason}${accepted ? " (accepted by the programme)" : ""}`,
  },
  "nothing-produced": { name: "Nothing produced", says: () => "nothing was produced" },
  schedule: {
    name: "Schedule",
    says: ({ weekdays, perDay, of }) =>
      `${weekdays.map((day) => WEEKDAYS[day - 1]).join(", ")}: ${of === "days" ? `one line a day, of about ${perDay} loads` : `${perDay} ${of} a day`}`,
  },
  due: { name: "Log due", says: ({ dayOfMonth }) => `by day ${dayOfMonth} of the month after` },
  method: { name: "Way of drying", says: ({ method }) => METHOD_WORDS[method] },
  pans: { name: "Pans", says: ({ pans }) => String(pans) },
  hours: { name: "Hours a day", says: ({ perDay }) => String(perDay) },
  numbering: {
    name: "Numbers of loads",
    says: ({ unique, unbroken }) =>
      `never twice in ${unique === "site" ? "the site's life" : "a day"}${unbroken ? ", without gaps" : ""}`,
  },
  "usual-load": {
    name: "Usual load",
    says: ({ freshKg, highestFreshKg }) => `${freshKg} kg fresh, ${highestFreshKg} kg at the most`,
  },
  "minutes-between-loads": { name: "Between loads", says: ({ minutes }) => `${minutes} minutes` },
  "sand-limit": { name: "Sand changed after", says: ({ loads }) => `${loads} loads` },
  container: { name: "Container", says: ({ kg }, key) => `${key}: ${kg} kg when full` },
  cylinder: { name: "Cylinder", says: ({ netKg }, key) => `${plain(key)}: ${netKg} kg net` },
  "scale-step": { name: "Step of the scale", says: ({ kg }, key) => `${key}: ${kg} kg` },
  "usual-measures": {
    name: "Usual measures",
    says: ({ mass, time, decimalMark, dayOrder }) =>
      `${mass}, ${time}${decimalMark === undefined ? "" : `, decimal “${decimalMark}”`}${dayOrder === undefined ? "" : `, dates ${dayOrder}`}`,
  },
  tally: { name: "Writes", says: ({ writes }) => (writes === "days" ? "a tally a day" : "a line a load") },
  "main-fuel": { name: "Main fuel", says: ({ fuel }) => FUEL_WORDS[fuel] },
  feed: { name: "Larvae reared on", says: ({ feed }) => feed },
  "log-layout": { name: "Sheet of the log", says: ({ layout }) => layout },
  "dry-matter": {
    name: "Dry matter of the fresh larvae",
    says: ({ share: part, sd, measured }) => `${share(part)} ± ${share(sd)}, ${measured ? "measured" : "assumed"}`,
  },
  "fresh-weighed": { name: "Fresh is weighed", says: ({ when }) => plain(when) },
  "dried-weighed": { name: "Dried is weighed", says: ({ when, sieved }) => `${plain(when)}, ${plain(sieved)}` },
  "kitchen-shares": {
    name: "Kitchen shares the fuel",
    says: ({ shared }, key) => `${plain(key)}: ${shared ? "yes" : "no"}`,
  },
  target: { name: "Target", says: ({ value, source }, key) => `${plain(key)}: ${value} (${source})` },
  "fuel-factor": {
    name: "Factor of a fuel",
    says: ({ mjPerUnit, co2KgPerUnit, source }, key) =>
      `${plain(key)}: ${mjPerUnit} MJ${co2KgPerUnit === undefined ? "" : `, ${co2KgPerUnit} kg CO2`} a unit (${source})`,
  },
  plausible: {
    name: "Missing loads at the most",
    says: ({ highestFreshKg, lowestYield, highestYield }) =>
      `${highestFreshKg} kg fresh, dry yield ${share(lowestYield)} to ${share(highestYield)}`,
  },
  "false-alarms": {
    name: "False alarms accepted",
    says: ({ perMonth, reading }) =>
      reading === "on-average" ? `${perMonth} a month on average` : `at most ${perMonth} in 95 % of months`,
  },
  event: { name: "Event", says: ({ kind, text }) => `${kind}: ${text}` },
};

export function factName(kind: FactKind): string {
  return WORDS[kind].name;
}

/** What a declaration says; that it was taken back, where it was. */
export function factInWords({ kind, key, value }: Pick<Fact, "kind" | "key" | "value">): string {
  if (value === null) return "taken back";
  return sayingOf(kind)(value, key);
}

/** A fact's value is of its kind: the database holds nothing that was not checked against it. */
function sayingOf(kind: FactKind): (value: NonNullable<Fact["value"]>, key: string) => string {
  return WORDS[kind].says as (value: NonNullable<Fact["value"]>, key: string) => string;
}
