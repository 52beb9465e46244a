import { z } from "zod";
import { type FileRow, statesOf } from "#db/queries/files";
import { lockSite } from "#db/queries/ledger";
import type { Tx } from "#db/store";
import { arrivalOf, slipCode } from "./arrive";
import { PICTURE_KINDS, type PictureKind } from "./pictureKind";
import { type Act, type Corridor, type Nothing, record } from "./record";

/** What a file's states say of pictures and of what was typed from them. */
const linked = z.object({
  picture: z.enum(PICTURE_KINDS).optional(),
  typed: z.array(z.string()).optional(),
  typedFrom: z.object({ picture: z.string(), lines: z.array(z.number()) }).optional(),
});

export interface Typing {
  /** null: no picture */
  readonly picture: PictureKind | null;
  /** the logs that were typed from this picture, in the order of typing */
  readonly typed: readonly string[];
  /** the picture that this log was typed from, and its line for each row after the headings */
  readonly typedFrom: { readonly picture: string; readonly lines: readonly number[] } | null;
}

/** How a file stands to pictures: what kind of one it is, what was typed from it, what it was typed from. */
export async function typingOf(tx: Tx, file: string): Promise<Typing> {
  const said = (await statesOf(tx, file)).flatMap(({ detail }) => linked.safeParse(detail).data ?? []);
  return {
    picture: said.findLast(({ picture }) => picture !== undefined)?.picture ?? null,
    typed: said.findLast(({ typed }) => typed !== undefined)?.typed ?? [],
    typedFrom: said.findLast(({ typedFrom }) => typedFrom !== undefined)?.typedFrom ?? null,
  };
}

/**
 * Keeps what was typed from a picture as a log of its own, and records on both which the other is.
 *
 * It came as its picture came, and is said to be of when its picture was. The same typed twice is one log.
 */
export async function keepTyped(
  corridor: Corridor,
  picture: FileRow,
  csv: string,
  lines: readonly number[],
): Promise<string> {
  const bytes = new TextEncoder().encode(csv);
  await corridor.store.storage.room(bytes.byteLength);
  return record(corridor, async (tx): Promise<Act<string> | Nothing<string>> => {
    await lockSite(tx, picture.site ?? 0);
    const { picture: kind, typed } = await typingOf(tx, picture.id);
    const [standing, arrival] = await arrivalOf(tx, corridor, {
      bytes,
      name: `typed from ${slipCode(picture.id)}.csv`,
      site: picture.site,
      cameBy: picture.cameBy === "message" ? "message" : "site",
      claimedAt: picture.claimedAt,
    });
    if (standing !== null) return { nothing: standing.file.id };
    const { id, sha256 } = arrival.file;
    const site = picture.site;
    return {
      command: "type",
      site,
      about: { file: id, sha256, bytes: bytes.byteLength, picture: picture.id },
      sealed: arrival.sealed,
      changes: {
        ...arrival.changes,
        fileStates: [
          { file: id, site, state: "arrived", detail: { typedFrom: { picture: picture.id, lines } } },
          { file: picture.id, site, state: "read", detail: { picture: kind, typed: [...typed, id] } },
        ],
      },
      answer: () => id,
    };
  });
}
