import type { Grid } from "#server/terms/grid";
import type { Bounds, Unreadable } from "#server/terms/row";
import { readWorkbook } from "../xlsx/readWorkbook";
import { decode } from "./decode";
import { readText } from "./readText";
import { recognise, refuseText } from "./recognise";

/**
 * Reads a file's bytes into cells, or says why that cannot be done. What the file is, its content decides; its name only
 * names the one sheet of a delimited file (without the ending). Pure and bounded; may take seconds for large files.
 */
export function readGrid(bytes: Uint8Array, name: string, bounds: Bounds): Grid | Unreadable {
  if (bytes.length > bounds.bytes) return { refused: "too-large", detail: `${bytes.length} > ${bounds.bytes}` };
  const kind = recognise(bytes);
  if (kind === "archive") return readWorkbook(bytes, bounds);
  if (kind !== "text") return kind;
  const { text, notes } = decode(bytes);
  if (text === "" && notes.length > 0) return { refused: "not-text", detail: "" }; // zero bytes alone
  const refused = refuseText(text);
  if (refused !== null) return refused;
  const grid = readText(text, name.replace(/\.[A-Za-z0-9]{1,5}$/, ""), bounds);
  return isUnreadable(grid) ? grid : { ...grid, notes: [...notes, ...grid.notes] };
}

/** True for a refusal, whatever else the reading would have been. */
export function isUnreadable<T extends object>(read: T | Unreadable): read is Unreadable {
  return "refused" in read;
}
