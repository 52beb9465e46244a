import { asPerson } from "#db/asPerson";
import {
  type Deed as DeedDone,
  deedsOf,
  fatesOf,
  logsBefore,
  settledRows,
  type Whose,
  whoAre,
} from "#db/queries/history";
import { unseal } from "#db/queries/sealed";
import { allSites } from "#db/queries/sites";
import type { Tx } from "#db/store";
import type { Deed, SentLog, SettledRows, Who } from "#server/terms/history";
import { slipCode } from "./arrive";
import { isPart } from "./partsStored";
import type { Corridor } from "./record";
import { pictureOf, reasonOf, soFarOf, whyOf } from "./saidOfFiles";

const FIRST = Number.MAX_SAFE_INTEGER;

/** A page of what was sent, newest first, and from where on the next page goes; null where nothing is left. */
export async function sentBefore(
  corridor: Corridor,
  whose: Whose,
  before: number | null,
  most: number,
): Promise<{ logs: SentLog[]; next: number | null }> {
  return asPerson(corridor, async (tx) => {
    const found = await logsBefore(tx, whose, before ?? FIRST, most + 1);
    const shown = found.slice(0, most);
    const ids = shown.map(({ file }) => file);
    const site = typeof whose === "object" ? whose.site : null;
    const fates = new Map((await fatesOf(tx, ids, site)).map((one) => [one.file, one]));
    const settled = await settledRows(tx, ids, site);
    const who = await named(tx, corridor.person, [
      ...shown.map(({ sentBy }) => sentBy),
      ...settled.map((one) => one.person),
    ]);
    const names = await unseal(
      tx,
      shown.flatMap(({ nameSealed }) => nameSealed ?? []),
    );
    const codes = new Map((await allSites(tx)).map(({ id, code }) => [id, code]));
    const logs = shown.map((row): SentLog => {
      const { everHeld, file: _file, ...rows } = fates.get(row.file) ?? { ...NO_ROWS, file: row.file };
      return {
        file: row.file,
        code: slipCode(row.file),
        site: row.site === null ? null : (codes.get(row.site) ?? null),
        whole: row.sha256 !== null,
        name: row.nameSealed === null ? null : (names.get(row.nameSealed) ?? null),
        sha256: row.sha256,
        bytes: row.bytes,
        sentBy: who(row.sentBy),
        arrivedAt: row.arrivedAt,
        claimedAt: row.claimedAt,
        cameBy: row.cameBy,
        ledgerIndex: row.ledgerIndex,
        state: row.state,
        typing: pictureOf(row.detail),
        takenBackInPart: row.state === "withdrawn" && soFarOf(row.detail) !== null,
        takenBackWhy: row.state === "withdrawn" ? reasonOf(row.detail) : null,
        rows,
        everHeld,
        settled: settled.filter(({ file }) => file === row.file).map((one) => settledTold(one, who)),
      };
    });
    const last = shown.at(-1);
    return { logs, next: found.length > most && last !== undefined ? last.ledgerIndex : null };
  });
}

const NO_ROWS = { rows: 0, counted: 0, held: 0, setAside: 0, everHeld: 0 };

/** Everything that became of a log, oldest first. */
export async function deedsTold(corridor: Corridor, file: string): Promise<Deed[]> {
  return asPerson(corridor, async (tx) => {
    const deeds = await deedsOf(tx, file);
    const who = await named(
      tx,
      corridor.person,
      deeds.map(({ person }) => person),
    );
    // of a log that was counted part by part the last part tells how far it came
    const told = deeds.filter((one, at) => !(isPart(one) && isPart(deeds[at + 1])) && !goesOn(one, deeds[at + 1]));
    return told.map(({ state, detail, at, person, command, ledgerIndex }) => ({
      deed:
        state === "counted" && command === "settle"
          ? "counted-again"
          : isPart({ state, detail })
            ? "counted-in-part"
            : isTakenInPart({ state, detail })
              ? "withdrawn-in-part"
              : state,
      at,
      by: who(person),
      ledgerIndex,
      reason: state === "withdrawn" ? reasonOf(detail) : null,
      why: whyOf(detail),
    }));
  });
}

function isTakenInPart({ state, detail }: Pick<DeedDone, "state" | "detail">): boolean {
  return state === "withdrawn" && soFarOf(detail) !== null;
}

/** Of a log that was taken back part by part the last record tells when it was. */
function goesOn(one: Pick<DeedDone, "state" | "detail">, next: Pick<DeedDone, "state"> | undefined): boolean {
  return isTakenInPart(one) && next?.state === "withdrawn";
}

function settledTold(
  one: { fate: SettledRows["fate"]; command: string; person: string; at: string; rows: number },
  who: (id: string) => Who,
): SettledRows {
  return {
    fate: one.fate,
    how: one.command === "settle" ? "answered" : "joined",
    by: who(one.person),
    at: one.at,
    rows: one.rows,
  };
}

/** What each person is called and is, as far as whoever asks may see it. */
async function named(tx: Tx, self: string, people: readonly string[]): Promise<(id: string) => Who> {
  const found = await whoAre(tx, [...new Set(people)]);
  const names = await unseal(
    tx,
    found.flatMap(({ nameSealed }) => nameSealed ?? []),
  );
  return (id) => {
    const person = found.find((one) => one.id === id);
    return {
      self: id === self,
      name: person?.nameSealed == null ? null : (names.get(person.nameSealed) ?? null),
      role: person?.role ?? null,
    };
  };
}
