import type { Figure } from "#server/terms/figure";
import { canonical } from "./canonical";

/** The figures of a month by one drying method; null: by whatever was used. */
export interface FiguresOfMethod {
  readonly method: string | null;
  readonly figures: Readonly<Record<string, Figure>>;
}

/** A figure that was published otherwise than it is known now; null where there was, or is, none by that method. */
export interface SincePublished {
  readonly method: string | null;
  readonly measure: string;
  readonly published: Figure | null;
  readonly now: Figure | null;
}

/**
 * The figures of a month that differ from what was published, in the order in which they are shown.
 *
 * Value, reason, interval, range and what it rests on are laid side by side, not when it was known nor by which edition it
 * was worked out: these differ always and say nothing about the month. `frozen` is the canonical JSON that was published.
 * Throws when that holds no figures: it is ours, and its hash stands in the ledger.
 */
export function sincePublished(frozen: string, now: readonly FiguresOfMethod[]): SincePublished[] {
  const published = frozenFigures(frozen);
  const methods = [...new Set([...now, ...published].map(({ method }) => method))];
  return methods.flatMap((method) => {
    const [was, is] = [figuresBy(method, published), figuresBy(method, now)];
    return [...new Set([...Object.keys(is), ...Object.keys(was)])].flatMap((measure) => {
      const pair = { published: was[measure] ?? null, now: is[measure] ?? null };
      return said(pair.published) === said(pair.now) ? [] : [{ method, measure, ...pair }];
    });
  });
}

function figuresBy(method: string | null, all: readonly FiguresOfMethod[]): FiguresOfMethod["figures"] {
  return all.find((one) => one.method === method)?.figures ?? {};
}

function said(figure: Figure | null): string {
  return canonical(figure === null ? null : { ...figure, asKnownOn: undefined, edition: undefined });
}

function frozenFigures(frozen: string): FiguresOfMethod[] {
  const months: unknown = JSON.parse(frozen);
  if (!Array.isArray(months)) throw new Error("what is published is a list of months");
  return months.map((month: unknown) => {
    const figures = isRecord(month) ? month.figures : null;
    if (!isRecord(month) || !isRecord(figures)) throw new Error("every published month holds its figures");
    const kept = Object.entries(figures).map(([measure, figure]) => {
      if (!isFigure(figure)) throw new Error(`${measure} was published as no figure`);
      return [measure, figure] as const;
    });
    return { method: typeof month.method === "string" ? month.method : null, figures: Object.fromEntries(kept) };
  });
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Codes of units and reasons never change once published, so it is enough that everything is there. */
function isFigure(value: unknown): value is Figure {
  if (!isRecord(value) || typeof value.unit !== "string" || !isRecord(value.restsOn)) return false;
  return value.known === true ? typeof value.value === "number" : typeof value.why === "string";
}
