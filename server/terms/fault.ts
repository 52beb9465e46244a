import type { Answers } from "./row";

/** What speaks for each kind of fault, in numbers. */
export interface FaultEvidence {
  /** rows of the log in which grams and kilograms were mixed */
  readonly "grams-for-kilograms": { readonly loads: number; readonly of: number };
  /** how many times the usual load the fresh weights are, where a usual load is declared; a kg is 2.2 lb */
  readonly "pounds-for-kilograms": {
    readonly loads: number;
    readonly usualTimes: number | null;
    readonly driedPerFresh: number;
    /** dried over fresh if the dried weights alone are in pounds */
    readonly inPounds: number;
  };
  /** the line of dried on fresh: dried = slope · fresh + intercept; a container in both weights is intercept / (1 − slope) */
  readonly "container-in-both": {
    readonly loads: number;
    readonly slope: number;
    readonly interceptKg: number;
    readonly rSquared: number;
    readonly containerKg: number;
  };
  /** dried over fresh, middle of the loads */
  readonly "sand-in-dried": { readonly loads: number; readonly driedPerFresh: number };
  readonly "in-out-exchanged": { readonly loads: number; readonly of: number };
  /** `length` rows come again `after` rows later (1: the same row on and on); so often by chance in a log like this */
  readonly "rows-copied": { readonly length: number; readonly after: number; readonly byChance: number };
  /** all these dried weights are this share of the fresh ones, to within half a step of the scale */
  readonly "dried-worked-out": { readonly loads: number; readonly of: number; readonly share: number };
  readonly "cylinder-gained": { readonly rows: number; readonly beforeKg: number; readonly afterKg: number };
  readonly "year-mistyped": { readonly rows: number; readonly written: number; readonly proposed: number };
  /** dried over the fresh weight of its own row, and over that of all rows that would belong to it */
  readonly "weighed-together": { readonly loads: number; readonly alone: number; readonly together: number };
}

export type FaultCode = keyof FaultEvidence;

interface FaultOf<Code extends FaultCode> {
  readonly code: Code;
  readonly evidence: FaultEvidence[Code];
  readonly sheet: string;
  /** rows in which it shows */
  readonly rows: readonly number[];
  /** pooled dry yield of the loads concerned, as written and as it would be; null where there is none to tell */
  readonly yieldNow: number | null;
  readonly yieldThen: number | null;
  /** what a person's yes would add to the answers; null where a yes alone cannot settle it */
  readonly answers: Answers | null;
}

/** A fault of which a log shows the signature: proposed to a person with its evidence and effect, never put right unasked. */
export type Fault = { [Code in FaultCode]: FaultOf<Code> }[FaultCode];

/** A fault that a person confirmed, and the rows that it changed. */
export type PutRight = Pick<Fault, "code" | "sheet" | "rows">;

/** What all faults of a kind in a sheet are called in answers that speak of them together. */
export function faultKindKey({ code, sheet }: Pick<Fault, "code" | "sheet">): string {
  return `${code} ${sheet}`;
}

/** What a fault is called in answers: its kind and where it first shows. The same log shows it under the same name. */
export function faultKey({ code, sheet, rows }: Pick<Fault, "code" | "sheet" | "rows">): string {
  return `${code} ${sheet}!${Math.min(...rows)}`;
}
