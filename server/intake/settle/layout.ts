import type { LayoutChange } from "#server/terms/look";
import type { Answers, FileQuestion, Meaning, Reading, Remembered, TableRead } from "#server/terms/row";
import { headed, likeness, type Pair, pairsOf } from "./sameColumns";

/** The layout of a log that counts, as it was settled. */
export interface KnownLayout {
  readonly file: string;
  readonly month: string | null;
  readonly tables: readonly TableRead[];
  readonly answers: Answers | null;
}

/** A table beside the one of an earlier log that has its columns. */
interface Twin {
  readonly now: TableRead;
  readonly before: TableRead;
  readonly pairs: readonly Pair[];
}

/** The earlier log whose columns are most like this one's, the later of two; null where none is. */
export function layoutLike(
  tables: readonly TableRead[],
  known: readonly KnownLayout[],
): { readonly layout: KnownLayout; readonly twins: readonly Twin[] } | null {
  let best: { layout: KnownLayout; twins: Twin[]; score: number } | null = null;
  for (const layout of known) {
    const twins = tables.flatMap((now) => twinOf(now, layout.tables) ?? []);
    const score = twins.reduce((sum, { now, before }) => sum + likeness(now, before), 0);
    if (score > (best?.score ?? 0)) best = { layout, twins, score };
  }
  return best;
}

function twinOf(now: TableRead, tables: readonly TableRead[]): Twin | null {
  let best: TableRead | null = null;
  for (const before of tables)
    if (
      likeness(now, before) > (best === null ? 0 : likeness(now, best)) ||
      (best === null && likeness(now, before) > 0)
    )
      best = before;
  return best === null ? null : { now, before: best, pairs: pairsOf(now, best) };
}

/**
 * What the earlier log of the same layout settled and this one leaves open, or what a person said there against its
 * headings. What this log says itself is never overruled: where its cells or headings decide, nothing is remembered.
 */
export function rememberedOf(
  { questions }: Pick<Reading, "questions">,
  tables: readonly TableRead[],
  known: readonly KnownLayout[],
): Remembered | null {
  const like = layoutLike(tables, known);
  if (like === null) return null;
  const { layout, twins } = like;
  const meanings: Record<string, Meaning | "ignore"> = {};
  const units: Record<string, string> = {};
  const leftOut: string[] = [];
  for (const { now, before, pairs } of twins) {
    if (before.leftOut && !now.leftOut) leftOut.push(`${now.sheet}!${now.headingRow}`);
    for (const pair of pairs.filter(({ how }) => how !== "renamed")) {
      const place = `${now.sheet}!${pair.now.column}`;
      const meaning = meaningThen(pair, before, layout, questions, place);
      if (meaning !== null) meanings[place] = meaning;
      const unit = unitThen(pair, before, layout, questions, place);
      if (unit !== null) units[place] = unit;
    }
  }
  const answers: Answers = {
    ...ofTheWhole(questions, twins, layout),
    ...(Object.keys(meanings).length === 0 ? {} : { meanings }),
    ...(Object.keys(units).length === 0 ? {} : { units }),
    ...(leftOut.length === 0 ? {} : { leftOut }),
  };
  return Object.keys(answers).length === 0 ? null : { file: layout.file, month: layout.month, answers };
}

function isAsked(questions: readonly FileQuestion[], code: FileQuestion["code"], place?: string): boolean {
  return questions.some((one) => one.code === code && (place === undefined || `${one.sheet}!${one.column}` === place));
}

function said<T>(answers: Readonly<Record<string, T>> | undefined, place: string): T | undefined {
  return answers !== undefined && Object.hasOwn(answers, place) ? answers[place] : undefined;
}

function meaningThen(
  { now, before }: Pair,
  table: TableRead,
  { answers }: KnownLayout,
  questions: readonly FileQuestion[],
  place: string,
): Meaning | "ignore" | null {
  const answered = said(answers?.meanings, `${table.sheet}!${before.column}`);
  if (answered !== undefined) return answered === (now.meaning ?? "ignore") ? null : answered;
  return isAsked(questions, "column-meaning", place) && before.sure !== "asked" ? before.meaning : null;
}

function unitThen(
  { now, before, how }: Pair,
  table: TableRead,
  { answers }: KnownLayout,
  questions: readonly FileQuestion[],
  place: string,
): string | null {
  if (how !== "same") return null;
  const answered = said(answers?.units, `${table.sheet}!${before.column}`);
  if (answered !== undefined) return before.unit === now.unit ? null : answered;
  return isAsked(questions, "column-unit", place) ? before.unit : null;
}

/** What holds for the log as a whole: order of dates, decimal mark, clock and years. */
function ofTheWhole(questions: readonly FileQuestion[], twins: readonly Twin[], { answers }: KnownLayout): Answers {
  const order = twins.map(({ before }) => before.dayOrder).find((one) => one !== null);
  const mark = twins.flatMap(({ pairs }) => pairs.map(({ before }) => before.decimalMark)).find((one) => one !== null);
  return {
    ...(isAsked(questions, "day-order") && order != null ? { dayOrder: order } : {}),
    ...(isAsked(questions, "decimal-mark") && mark != null ? { decimalMark: mark } : {}),
    ...(isAsked(questions, "clock-of-log") && answers?.clock !== undefined ? { clock: answers.clock } : {}),
    ...(isAsked(questions, "years-of-log") && answers?.years !== undefined ? { years: answers.years } : {}),
  };
}

/** How the columns differ from those of the earlier log of the same layout; null where no earlier log has them. */
export function layoutChange(
  tables: readonly TableRead[],
  known: readonly KnownLayout[],
): { readonly layout: KnownLayout; readonly change: LayoutChange } | null {
  const like = layoutLike(tables, known);
  if (like === null) return null;
  const pairs = like.twins.flatMap((twin) => twin.pairs);
  const orders = like.twins.filter(
    ({ now, before }) => now.dayOrder !== null && before.dayOrder !== null && now.dayOrder !== before.dayOrder,
  );
  const [other] = orders;
  return {
    layout: like.layout,
    change: {
      missing: like.twins.flatMap(({ before, pairs: own }) =>
        headed(before).flatMap((column) => (own.some((pair) => pair.before === column) ? [] : [column.heading])),
      ),
      added: like.twins.flatMap(({ now, pairs: own }) =>
        headed(now).flatMap((column) => (own.some((pair) => pair.now === column) ? [] : [column.heading])),
      ),
      renamed: pairs.flatMap(({ now, before, how }) =>
        how === "renamed" ? [{ from: before.heading, to: now.heading }] : [],
      ),
      units: pairs.flatMap(({ now, before }) =>
        now.unit !== null && before.unit !== null && now.unit !== before.unit
          ? [{ heading: now.heading, from: before.unit, to: now.unit }]
          : [],
      ),
      dayOrder:
        other?.before.dayOrder && other.now.dayOrder ? { from: other.before.dayOrder, to: other.now.dayOrder } : null,
      moved: like.twins.some(({ pairs: own }) => isMoved(own)),
    },
  };
}

/** The columns that both have do not follow each other as they did. */
function isMoved(pairs: readonly Pair[]): boolean {
  const order = (column: string) => column.padStart(4, " ");
  const now = [...pairs].sort((a, b) => (order(a.now.column) < order(b.now.column) ? -1 : 1));
  return now.some(({ before }, at) => {
    const left = now[at - 1];
    return left !== undefined && order(left.before.column) > order(before.column);
  });
}
