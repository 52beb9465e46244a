import { statesOf } from "#db/queries/files";
import { factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import type { PutRight } from "#server/terms/fault";
import type { Why } from "#server/terms/history";
import type { Role } from "#server/terms/person";
import type { Hints, Reading } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { arrivalOf, type Sent, slipCode } from "./arrive";
import { lockedSites } from "./lockedSites";
import type { Decided } from "./matchSite";
import { planFile } from "./planFile";
import { type Act, type Corridor, type Nothing, record } from "./record";

export interface SendOrder {
  readonly sent: Sent;
  readonly reading: Reading;
  /** how it was read, answers in it: enough to read it again the same way */
  readonly hints: Hints;
  /** the file that is meant, where it is here already; without it, bytes that were taken back come in once more */
  readonly file?: string;
  /** read again with answers that came later, though it was counted before */
  readonly again?: boolean;
  /** as who the person counts it: who settled a log is kept with it */
  readonly by?: Role;
  /** batches that it lacks and that the sender wants withdrawn, and why the log says something else than before */
  readonly withdraw?: readonly string[];
  readonly why?: Why;
  /** faults that were confirmed with it: batches that change by one say so, and who confirmed it */
  readonly putRight?: readonly PutRight[];
}

/** The file that was to be counted was taken back meanwhile. */
export class TakenBack extends Error {
  constructor(file: string) {
    super(`file ${file} was taken back`);
  }
}

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/**
 * Stores a log that was read: file, rows, batches, sums and one record, wholly or not at all.
 *
 * The same bytes of the same sender, while that earlier file stands, change nothing and get the same slip. Throws
 * TakenBack where a file is named that does not stand any more.
 */
export async function send(corridor: Corridor, order: SendOrder): Promise<Slip> {
  const { sent, reading, hints } = order;
  await corridor.store.storage.room(sent.bytes.byteLength);
  return record(corridor, async (tx): Promise<Act<Slip> | Nothing<Slip>> => {
    const sites = await lockedSites(tx, sent.site);
    const site = sites.find(({ id }) => id === sent.site) ?? null;
    const [standing, arrival] = await arrivalOf(tx, corridor, sent);
    if (standing?.state === "counted" && order.again !== true) return { nothing: await slipOf(tx, standing.file.id) };
    if (order.file !== undefined && order.file !== standing?.file.id) throw new TakenBack(order.file);
    const { id: file, sha256, bytes, arrivedAt } = arrival.file;
    const facts = await factsOf(
      tx,
      sites.map(({ id }) => id),
      EVERYTHING,
    );
    const decided = { ...saidOfRows(corridor, order), withdraw: new Set(order.withdraw ?? []) };
    const plan = await planFile(tx, { file, site, sites, reading, facts, arrivedAt: new Date(arrivedAt), decided });
    const slip = {
      code: slipCode(file),
      file,
      site: site?.code ?? null,
      sha256,
      bytes,
      arrivedAt: new Date(arrivedAt).toISOString(),
      ...plan.slip,
      open: reading.questions.length + (reading.look?.faults.length ?? 0),
    };
    const why = order.why === undefined ? {} : { why: order.why };
    const by = order.by === undefined ? {} : { by: order.by };
    const whose = sent.site === null ? { sites: plan.sites } : {};
    const counted = { file, site: sent.site, state: "counted", detail: { hints, slip, ...why, ...whose, ...by } };
    return {
      command: order.again === true ? "settle" : "send",
      site: sent.site,
      about: { file, sha256, bytes },
      sealed: [...arrival.sealed, ...plan.sealed],
      changes: { ...arrival.changes, ...plan.changes, fileStates: [...(arrival.changes.fileStates ?? []), counted] },
      answer: (ledgerIndex) => ({ ...slip, ledgerIndex }),
    };
  });
}

/** What persons said of rows: which batches they are, and which faults were confirmed by whom. */
export function saidOfRows(
  { person }: Corridor,
  { hints, putRight, by }: Pick<SendOrder, "hints" | "putRight" | "by">,
): Pick<Decided, "are" | "putRight"> {
  const are = hints.answers?.are ?? {};
  if (putRight === undefined || putRight.length === 0) return { are };
  return { are, putRight: { faults: putRight, by: `${by ?? "person"} ${person}` } };
}

/** The latest sending slip of a file. Throws when it was never counted. */
export async function slipOf(tx: Tx, file: string): Promise<Slip> {
  const counted = (await statesOf(tx, file)).findLast(({ state }) => state === "counted");
  if (counted === undefined) throw new Error(`file ${file} has no sending slip: it was not counted`);
  const { slip } = counted.detail as { slip: Omit<Slip, "ledgerIndex"> };
  return { ...slip, ledgerIndex: counted.ledgerIndex };
}
