import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { allSites, type Site } from "#db/queries/sites";
import { TABLE_NAMES } from "#server/evidence/tables";
import { whereWritten } from "#server/evidence/whereItStands";
import { accountOf, csvOf, evidenceWorkbook } from "#server/jobs/evidence";
import { type AskedTables, batchItems, type Sentence } from "#server/jobs/evidenceParts";
import { publishedOf } from "#server/jobs/publishedOf";
import type { Corridor } from "#server/jobs/record";
import { monthsBetween } from "#server/terms/days";
import { atSite, forPerson, momentOrRecord, month, router, wrong } from "./base";

const span = z.object({ from: month, to: month, asOf: momentOrRecord.optional() });
/** Reasons are put in words by whoever asks: sentences belong to the words room. */
const worded = span.extend({ sentence: z.custom<Sentence>((given) => typeof given === "function") });
const oneTable = worded.extend({ table: z.enum(TABLE_NAMES) });
const MOST_MONTHS = 60;

type Span = z.infer<typeof span>;

/** Evidence tables of one site, or of everything that the person may see: a site lead gets the own site's either way. */
export const evidenceRouter = router({
  siteAccount: atSite("read-files")
    .input(span)
    .query(async ({ ctx, input }) => accountOf(ctx.corridor, await askedFor(ctx.corridor, input, ctx.site))),
  allAccount: forPerson
    .input(span)
    .query(async ({ ctx, input }) => accountOf(ctx.corridor, await askedFor(ctx.corridor, input, null))),
  /** A table as CSV, piece by piece. */
  siteCsv: atSite("read-files")
    .input(oneTable)
    .query(async ({ ctx, input }) => csv(ctx.corridor, input, await askedFor(ctx.corridor, input, ctx.site))),
  allCsv: forPerson
    .input(oneTable)
    .query(async ({ ctx, input }) => csv(ctx.corridor, input, await askedFor(ctx.corridor, input, null))),
  /** All tables in one workbook, as XLSX. */
  siteWorkbook: atSite("read-files")
    .input(worded)
    .query(async ({ ctx, input }) => workbook(ctx.corridor, input, await askedFor(ctx.corridor, input, ctx.site))),
  allWorkbook: forPerson
    .input(worded)
    .query(async ({ ctx, input }) => workbook(ctx.corridor, input, await askedFor(ctx.corridor, input, null))),
  /** How many figures of each published month are known otherwise by now; of what was published last at the most so many. */
  sitePublished: atSite("read-figures")
    .input(span)
    .query(async ({ ctx, input }) => publishedOf(ctx.corridor, await askedFor(ctx.corridor, input, ctx.site))),
  allPublished: forPerson
    .input(span)
    .query(async ({ ctx, input }) => publishedOf(ctx.corridor, await askedFor(ctx.corridor, input, null))),
  /** The batches of a site's month with the rows that each was read from, and the cells of its values. */
  batches: atSite("read-files")
    .input(z.object({ month, asOf: momentOrRecord.optional() }))
    .query(({ ctx, input }) =>
      asPerson(ctx.corridor, async (tx) => {
        const { ledgerSize } = await knownOn(tx, input.asOf ?? null);
        const items = await batchItems(tx, ctx.site, input.month, ledgerSize);
        return items.map(({ batch, standings }) => ({ batch, rows: standings, written: whereWritten(standings) }));
      }),
    ),
});

/** The scope of the tables, with the moment of knowledge settled once for all of their parts. */
async function askedFor(corridor: Corridor, { from, to, asOf }: Span, site: Site | null): Promise<AskedTables> {
  if (from > to) throw wrong(`The month ${from} is after ${to}.`);
  if (monthsBetween(from, to).length > MOST_MONTHS) throw wrong(`At most ${MOST_MONTHS} months at once.`);
  return asPerson(corridor, async (tx) => ({
    sites: site === null ? await allSites(tx) : [site],
    whole: site === null,
    from,
    to,
    known: await knownOn(tx, asOf ?? null),
  }));
}

function csv(corridor: Corridor, { table, sentence }: z.infer<typeof oneTable>, asked: AskedTables) {
  return { name: `${table}_${scopeName(asked)}.csv`, pieces: csvOf(corridor, asked, table, sentence) };
}

async function workbook(corridor: Corridor, { sentence }: z.infer<typeof worded>, asked: AskedTables) {
  const bytes = await evidenceWorkbook(corridor, asked, sentence);
  if (bytes === null)
    throw wrong("That is too much for one workbook. Take fewer months or one site, or the tables as CSV.");
  return { name: `evidence_${scopeName(asked)}.xlsx`, bytes };
}

/** Says which sites and months, and of which size of the ledger; nothing that a sender wrote. */
function scopeName({ sites, whole, from, to, known }: AskedTables): string {
  return [whole ? "all" : (sites[0]?.code ?? "none"), from, to, `record-${known.ledgerSize}`].join("_");
}
