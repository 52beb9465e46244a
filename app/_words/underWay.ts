import type { Progress } from "#server/jobs/underWay";
import { counted } from "./days";

/** How far a log is, in bytes and rows; of a log in parts both are of the whole log. */
export function progressInWords({ doing, step, bytes, ofBytes, rows, ofRows, inParts }: Progress): string {
  const done = rows.toLocaleString("en");
  const all = ofRows === null ? "" : ` of ${ofRows.toLocaleString("en")}`;
  const read = `${bytes.toLocaleString("en")} of ${counted(ofBytes, "byte")}`;
  if (doing === "taking-back") return ofRows === null ? "" : `${done}${all} loads are taken back.`;
  if (inParts && ofRows === null) return `${read} and ${counted(rows, "row")} are counted.`;
  if (inParts) return `All of it is read; ${done}${all} rows are counted.`;
  if (step === "storing") return `All of it is read; ${done}${all} rows are written down.`;
  return ofRows === null ? `0 of ${counted(ofBytes, "byte")} are read.` : `${read} are read, and ${done}${all} rows.`;
}

/** What is being done with it, and for which time. */
export function workInWords({ doing, step, pass, inParts }: Progress): string {
  if (doing === "taking-back")
    return inParts
      ? "It is large, so it is taken back part by part. What is not taken back yet still counts."
      : "It is being taken back: wholly or not at all, and not before it is done.";
  if (inParts) return "It is large, so it is counted part by part. What is counted so far counts already.";
  if (doing === "counting" && step === "storing")
    return "It is being counted: wholly or not at all, and not before it is done.";
  const again =
    pass > 1 ? ` This is reading ${pass}: what its site declared, or its earlier logs settled, is taken in.` : "";
  return doing === "counting"
    ? `It is being read to be counted; nothing of it counts yet.${again}`
    : `It is being read. Nothing is counted by that.${again}`;
}
