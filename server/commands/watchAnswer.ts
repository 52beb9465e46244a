import { WrongCall } from "./command";
import { between, finite, positive } from "./numbers";

/** What `watch --json` prints: one form for all charts. */
export interface Answer {
  readonly chart: "drift" | "individuals" | "ewma" | "cusum";
  readonly parameters: Readonly<Record<string, number | null>>;
  readonly points: readonly Readonly<Record<string, string | number | null>>[];
  readonly signals: readonly ChartSignal[];
  /** days that could not be used */
  readonly leftOut: readonly string[];
}

export interface ChartSignal {
  readonly day: string;
  /** first day of what is signalled; null where that is not determined */
  readonly since: string | null;
  readonly size: number;
  readonly direction: "up" | "down";
  readonly value: number | null;
}

/** The options that take a number, by name. */
export const NUMBERS = [
  "accept",
  "limit",
  "lambda",
  "target",
  "spread",
  "allowance",
  "spike",
  "omega",
  "rho",
  "d0",
  "s2",
  "learn",
  "clamp",
] as const;
export type NumberOption = (typeof NUMBERS)[number];

/** Which options each chart knows: any other is a wrong call, since it would be passed over in silence. */
const KNOWN: Readonly<Record<Answer["chart"], readonly (NumberOption | "widening")[]>> = {
  drift: ["accept", "limit", "spike", "omega", "rho", "d0", "s2", "learn", "lambda", "clamp"],
  individuals: ["accept", "limit", "target", "spread"],
  ewma: ["accept", "limit", "lambda", "target", "spread", "widening"],
  cusum: ["accept", "limit", "target", "allowance", "spread"],
};

/** The options of a call: numbers are asked for by name, and one that is needed and not said is a wrong call. */
export interface Options {
  readonly widening: boolean;
  readonly text: (name: NumberOption) => string | undefined;
  readonly number: (name: NumberOption, otherwise?: number) => number;
  readonly positive: (name: NumberOption, otherwise?: number) => number;
  readonly between: (name: NumberOption, from: number, to: number, otherwise?: number) => number;
}

export function optionsOf(
  chart: string,
  values: Readonly<Partial<Record<NumberOption, string>>> & { readonly widening?: boolean },
): Options {
  const known = Object.entries(KNOWN).find(([name]) => name === chart)?.[1];
  if (known === undefined) throw new WrongCall("--chart is drift, individuals, ewma or cusum.");
  const strange = [...NUMBERS, "widening" as const].find((name) => values[name] !== undefined && !known.includes(name));
  if (strange !== undefined) throw new WrongCall(`--chart ${chart} does not take --${strange}.`);
  const said = (name: NumberOption, otherwise: number | undefined, read: (text: string) => number): number => {
    const text = values[name];
    if (text !== undefined) return read(text);
    if (otherwise === undefined) throw new WrongCall(`--chart ${chart} needs --${name}.`);
    return otherwise;
  };
  return {
    widening: values.widening === true,
    text: (name) => values[name],
    number: (name, otherwise) => said(name, otherwise, (text) => finite(text, name)),
    positive: (name, otherwise) => said(name, otherwise, (text) => positive(text, name)),
    between: (name, from, to, otherwise) => said(name, otherwise, (text) => between(text, name, from, to)),
  };
}
