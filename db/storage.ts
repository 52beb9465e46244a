import type { LedgerRow } from "./queries/ledger";
import type { ChangesWritten } from "./queries/recorded";
import type { SealedRow } from "./queries/sealed";
import type { Tx } from "./store";

/** One record with everything that its command added: enough to build the database again. */
export interface JournalLine extends LedgerRow {
  readonly changes: ChangesWritten;
  /** kept apart from the journal, so that it can be erased */
  readonly sealed: readonly SealedRow[];
}

/** A record that was appended just now: what it added is written row by row only where that is kept. */
export interface Appended extends LedgerRow {
  readonly changes: () => ChangesWritten;
  readonly sealed: readonly SealedRow[];
}

/**
 * Where original bytes live, and what is made durable before a command is answered.
 *
 * PostgreSQL keeps the bytes in the database and its own log is the durability. The embedded database never syncs, so
 * there the bytes go to a synced inbox, and each committed record with its changes to a synced journal.
 */
export interface Storage {
  /** Keeps the bytes for good; durable no later than the commit of `tx`. Twice the same is once. */
  keep(tx: Tx, sha256: string, bytes: Uint8Array): Promise<void>;
  /** The same for bytes that come piece by piece; their hash is known already. */
  keepPieces(tx: Tx, sha256: string, pieces: AsyncIterable<Uint8Array>): Promise<void>;
  /** The bytes, or undefined when they are not here. */
  bytes(tx: Tx, sha256: string): Promise<Uint8Array | undefined>;
  /** After a commit and before the answer: makes the record durable. */
  settle(record: Appended): Promise<void>;
  /** After sealed values were erased: what was kept of them elsewhere goes too. Of each record, what is left. */
  forget(left: ReadonlyMap<number, readonly SealedRow[]>): Promise<void>;
  /** Throws CannotStore when there is no room for so many bytes. */
  room(bytes: number): Promise<void>;
}

/** There is no room, or no right, to keep what was sent. The message is for the sender. */
export class CannotStore extends Error {}
