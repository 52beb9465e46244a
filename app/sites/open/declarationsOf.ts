import type { FactKind } from "#server/terms/facts";

export interface Declared {
  readonly kind: FactKind;
  readonly from: string;
  readonly value: unknown;
}

/** The declarations that the form for a new site carries; a field left empty declares nothing. */
export function declarationsOf(fields: Readonly<Record<string, string>>): Declared[] {
  const {
    name = "",
    from = "",
    zone = "",
    language = "",
    method = "",
    pans = "",
    hours = "",
    fuel = "",
    mass = "",
  } = fields;
  const { perDay = "", due = "" } = fields;
  const weekdays = [1, 2, 3, 4, 5, 6, 7].filter((day) => fields[`weekday${day}`] === "yes");
  const all: [FactKind, boolean, unknown][] = [
    ["name", true, { name: name.trim() }],
    ["open", true, {}],
    ["time-zone", zone !== "", { zone: zone.trim() }],
    ["language", language !== "", { language }],
    ["method", method !== "", { method }],
    ["pans", pans !== "", { pans: plainNumber(pans) }],
    ["hours", hours !== "", { perDay: plainNumber(hours) }],
    ["main-fuel", fuel !== "", { fuel }],
    ["usual-measures", mass !== "", { mass, time: "min" }],
    ["schedule", weekdays.length > 0 && perDay !== "", { weekdays, perDay: plainNumber(perDay), of: "loads" }],
    ["due", due !== "", { dayOfMonth: plainNumber(due) }],
  ];
  return all.flatMap(([kind, said, value]) => (said ? [{ kind, from, value }] : []));
}

/** A number with a decimal point or comma; what is none stays as it was typed, for the check to name it. */
function plainNumber(text: string): number | string {
  const plain = text.trim().replace(",", ".");
  return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : text;
}
