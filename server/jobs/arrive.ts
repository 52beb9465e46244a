import { createHash } from "node:crypto";
import { type FileNow, type FileRow, sameFiles } from "#db/queries/files";
import { lockSite } from "#db/queries/ledger";
import type { Changes } from "#db/queries/recorded";
import type { SealedRow } from "#db/queries/sealed";
import type { Tx } from "#db/store";
import { pictureKind } from "./pictureKind";
import { type Act, type Corridor, databaseTime, type Nothing, record } from "./record";
import { soFarOf } from "./saidOfFiles";
import { seal } from "./seal";

/** What somebody sent, as it came. */
export interface Sent {
  readonly bytes: Uint8Array;
  readonly name: string;
  /** the site that it is from; null for a log of the programme, whose rows name their sites */
  readonly site: number | null;
  /** "site": sent by the site. "message": brought by somebody who got it another way */
  readonly cameBy: "site" | "message";
  /** when the sender says it was sent; kept apart */
  readonly claimedAt: string | null;
}

export interface Arrival {
  readonly file: Omit<FileRow, "ledgerIndex">;
  readonly sealed: readonly Omit<SealedRow, "ledgerIndex">[];
  readonly changes: Pick<Changes, "files" | "fileStates">;
}

/** Keeps the bytes for good, to be looked at before they are counted. Bytes that stand already are that earlier file. */
export async function arrive(corridor: Corridor, sent: Sent): Promise<string> {
  await corridor.store.storage.room(sent.bytes.byteLength);
  return record(corridor, async (tx): Promise<Act<string> | Nothing<string>> => {
    await lockSite(tx, sent.site ?? 0);
    const [standing, arrival] = await arrivalOf(tx, corridor, sent);
    if (standing !== null) return { nothing: standing.file.id };
    const { id, sha256, bytes } = arrival.file;
    return {
      command: "arrive",
      site: sent.site,
      about: { file: id, sha256, bytes },
      sealed: arrival.sealed,
      changes: arrival.changes,
      answer: () => id,
    };
  });
}

/**
 * The file that these bytes already are, or the new one that they become; keeps the bytes in the latter case. Throws
 * BeingTakenBack where they are not wholly taken back yet.
 */
export async function arrivalOf(tx: Tx, corridor: Corridor, sent: Sent): Promise<readonly [FileNow | null, Arrival]> {
  const sha256 = createHash("sha256").update(sent.bytes).digest("hex");
  return arrivalAs(tx, corridor, sent, {
    sha256,
    size: sent.bytes.byteLength,
    picture: pictureKind(sent.bytes),
    keep: () => corridor.store.storage.keep(tx, sha256, sent.bytes),
  });
}

/** The same bytes are being taken back part by part; that must be done before they can come again. */
export class BeingTakenBack extends Error {
  readonly file: string;

  constructor(file: string) {
    super(`file ${file} is not wholly taken back`);
    this.file = file;
  }
}

/** What arrives, without its bytes in memory. */
export interface Content {
  readonly sha256: string;
  readonly size: number;
  readonly picture: ReturnType<typeof pictureKind>;
  readonly keep: () => Promise<void>;
}

export async function arrivalAs(
  tx: Tx,
  corridor: Corridor,
  sent: Omit<Sent, "bytes">,
  { sha256, size, picture, keep }: Content,
): Promise<readonly [FileNow | null, Arrival]> {
  const same = await sameFiles(tx, sent.site, sha256);
  const standing = same.find(({ state }) => state !== "withdrawn");
  const half = same.find(({ state, detail }) => state === "withdrawn" && soFarOf(detail) !== null);
  if (half !== undefined) throw new BeingTakenBack(half.file.id);
  if (standing !== undefined) return [standing, { file: standing.file, sealed: [], changes: {} }];
  await keep();
  const name = seal(sent.name, sent.site);
  const file = {
    id: fileId(sent.site, sha256, same.length),
    site: sent.site,
    sha256,
    bytes: size,
    nameSealed: name.commitment,
    sentBy: corridor.person,
    arrivedAt: databaseTime(corridor.clock()),
    claimedAt: sent.claimedAt === null ? null : databaseTime(new Date(sent.claimedAt)),
    cameBy: sent.cameBy,
  };
  const detail = picture === null ? {} : { picture };
  const state = { file: file.id, site: sent.site, state: "arrived", detail };
  return [null, { file, sealed: [name], changes: { files: [file], fileStates: [state] } }];
}

/** A file's id follows from its owner, its bytes, and how often they were sent and withdrawn before (UUID version 8, RFC 9562). */
function fileId(site: number | null, sha256: string, before: number): string {
  const hash = createHash("sha256")
    .update(`${site ?? "programme"} ${sha256} ${before}`)
    .digest();
  hash[6] = 0x80 | (hash.readUInt8(6) & 0x0f);
  hash[8] = 0x80 | (hash.readUInt8(8) & 0x3f);
  const hex = hash.toString("hex");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20, 32)].join("-");
}

/** What a sending slip is called aloud: eight letters and digits that are hard to mistake, from the file's id. */
export function slipCode(file: string): string {
  const letters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
  let rest = BigInt(`0x${createHash("sha256").update(file).digest("hex").slice(0, 16)}`);
  let code = "";
  while (code.length < 8) {
    code += letters[Number(rest % BigInt(letters.length))];
    rest /= BigInt(letters.length);
  }
  return `EV-${code}`;
}
