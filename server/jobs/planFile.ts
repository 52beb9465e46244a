import type { Changes } from "#db/queries/recorded";
import type { SealedRow } from "#db/queries/sealed";
import type { Site } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { numbersOfSet } from "#server/intake/rows/setsPlain";
import type { BatchWritten } from "#server/terms/batch";
import type { Fact } from "#server/terms/facts";
import type { Problem, ProblemCode } from "#server/terms/problem";
import type { Reading, RowRead } from "#server/terms/row";
import type { Brought } from "./lacking";
import type { Decided } from "./matchSite";
import { keyOf } from "./planBatches";
import { planSite, type SitePlan } from "./planSite";
import { seal } from "./seal";
import { siteDay } from "./siteDay";
import { type SlipPart, slipPart } from "./slipPart";
import { waitingAgain } from "./waitingAgain";

export interface FilePlan {
  readonly changes: Changes;
  readonly sealed: readonly Omit<SealedRow, "ledgerIndex">[];
  readonly slip: SlipPart;
  /** the sites that its rows are of */
  readonly sites: readonly number[];
  readonly brought: readonly Brought[];
}

export interface FileInput {
  readonly file: string;
  /** the one site of the log; null where rows name theirs */
  readonly site: Site | null;
  /** the sites that rows may name, all locked */
  readonly sites: readonly Site[];
  readonly reading: Reading;
  readonly arrivedAt: Date;
  readonly facts: readonly Fact[];
  readonly decided: Decided;
}

/** Plans everything that a log changes, site by site in the order of their numbers, and the fate of every row. */
export async function planFile(tx: Tx, input: FileInput): Promise<FilePlan> {
  const siteOf = siteTeller(input);
  const ofSites = new Map<number, RowRead[]>();
  for (const row of input.reading.rows) {
    const site = siteOf(row);
    const rows = site === null ? undefined : ofSites.get(site.id);
    if (rows !== undefined) rows.push(row);
    else if (site !== null) ofSites.set(site.id, [row]);
  }
  const saidBefore = new Set(input.decided.before?.links.map(({ site }) => site));
  const plans = new Map<number, SitePlan>();
  for (const { id } of input.sites) {
    const rows = ofSites.get(id) ?? (saidBefore.has(id) ? [] : undefined);
    if (rows === undefined) continue;
    const arrived = siteDay(input.arrivedAt, input.facts, id);
    plans.set(id, await planSite(tx, id, input.file, rows, arrived, input.facts, input.decided));
  }
  const settled: RowRead[] = [];
  const sealed: FilePlan["sealed"][number][] = [];
  const stored: NonNullable<Changes["rows"]>[number][] = [];
  for (const read of input.reading.rows) {
    const site = siteOf(read);
    const plan = site === null ? undefined : plans.get(site.id);
    const row = settledRow(read, site, plan, input);
    const of = site?.id ?? input.site?.id ?? null;
    const envelope = envelopeOf(row, of);
    settled.push(row);
    if (envelope !== null) sealed.push(envelope);
    const sayings = plan?.batches.sayings;
    const saying = sayings === undefined || sayings.size === 0 ? null : (sayings.get(keyOf(row)) ?? null);
    stored.push(storedRow(input.file, row, of, saying, envelope));
  }
  const all = [...plans.values()].map(({ changes }) => changes);
  const gather = <K extends keyof SitePlan["changes"]>(name: K) =>
    all.length === 1 ? (all[0]?.[name] ?? []) : all.flatMap((changes) => [...(changes[name] ?? [])]);
  const joined = [...plans].flatMap(([site, { batches }]) => batches.joined.map((row) => ({ site, row })));
  return {
    sites: [...plans.keys()],
    brought: [...plans.values()].map(({ brought }) => brought),
    sealed,
    changes: {
      rows: [
        ...stored,
        ...joined.map(({ site, row }) => ({
          file: row.file,
          sheet: row.sheet,
          row: row.row,
          site,
          fate: "counted",
          grain: row.batch.grain,
          driedOnly: true,
          reasons: [],
          cells: row.cells,
          written: row.batch,
          sealed: [...row.sealed],
        })),
        ...[...plans.values()].flatMap(({ waiting }) => waiting.map(waitingAgain)),
      ],
      rowBatches: gather("rowBatches") as NonNullable<Changes["rowBatches"]>[number][],
      batchRevisions: gather("batchRevisions") as NonNullable<Changes["batchRevisions"]>[number][],
      daySums: gather("daySums") as NonNullable<Changes["daySums"]>[number][],
      monthSums: gather("monthSums") as NonNullable<Changes["monthSums"]>[number][],
      fuelEntries: gather("fuelEntries") as NonNullable<Changes["fuelEntries"]>[number][],
      fuelSpans: gather("fuelSpans") as NonNullable<Changes["fuelSpans"]>[number][],
    },
    slip: slipPart(settled, [...plans.values()], input.reading),
  };
}

/** Tells the site that a row is of; null where it names none that is known. */
export function siteTeller({
  site,
  sites,
  facts,
}: Pick<FileInput, "site" | "sites" | "facts">): (row: RowRead) => Site | null {
  if (site !== null) return () => site;
  const named = new Map<string, Site>();
  for (const one of sites) {
    const names = facts.flatMap((fact) => (fact.site === one.id && fact.kind === "name" ? (nameOf(fact) ?? []) : []));
    for (const name of [plain(one.code), ...names]) if (!named.has(name)) named.set(name, one);
  }
  return (row) => (row.site === null ? null : (named.get(plain(row.site)) ?? null));
}

function nameOf(fact: Fact): string | null {
  return fact.value !== null && "name" in fact.value ? plain(fact.value.name) : null;
}

function plain(text: string): string {
  return text.trim().toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "").replace(/\s+/g, " ");
}

/** The row with what storing found out about it: a doubtful match, a dried weight without its load, an unknown site. */
function settledRow(row: RowRead, site: Site | null, plan: SitePlan | undefined, input: FileInput): RowRead {
  if (row.fate !== "counted") return row;
  if (site === null && input.site === null) return held(row, "site-unknown", row.site ?? "");
  const verdict = plan?.batches.verdicts.get(row);
  if (verdict === "doubtful" || isFuelDoubtful(row, plan)) return held(row, "match-doubtful", "");
  if (verdict === "no-load") return held(row, "dried-without-load", setOf(row));
  return row;
}

function isFuelDoubtful(row: RowRead, plan: SitePlan | undefined): boolean {
  return plan !== undefined && plan.fuel.doubtful.size > 0 && plan.fuel.doubtful.has(keyOf(row));
}

/** The loads that a row says it is the weight of, where they are several: "3+4+5". */
function setOf({ batch }: RowRead): string {
  const number = batch?.number ?? null;
  return number !== null && numbersOfSet(number) !== null ? number : "";
}

function held(row: RowRead, code: ProblemCode, text: string): RowRead {
  const problem: Problem = { code, at: { sheet: row.sheet, row: row.row, column: null }, text };
  return { ...row, fate: "held", reasons: [...row.reasons, problem] };
}

function envelopeOf({ sheet, row, sealed }: RowRead, site: number | null): FilePlan["sealed"][number] | null {
  return sealed.length === 0 ? null : seal(JSON.stringify({ sheet, row, cells: sealed }), site);
}

function storedRow(
  file: string,
  row: RowRead,
  site: number | null,
  saying: BatchWritten | null,
  envelope: FilePlan["sealed"][number] | null,
) {
  const quiet = row.fate === "set-aside";
  return {
    file,
    sheet: row.sheet,
    row: row.row,
    site,
    fate: row.fate,
    grain: row.batch?.grain ?? null,
    driedOnly: row.driedOnly,
    reasons: quiet ? row.reasons.map((reason) => ({ ...reason, text: "" })) : row.reasons,
    cells: row.cells,
    written: row.fate === "held" ? row.batch : row.fate === "counted" ? saying : null,
    sealed: envelope === null ? [] : [envelope.commitment],
  };
}
