import type { Account } from "#server/jobs/evidence";
import { counted } from "../_words/days";

/** What adds up besides the rows, each as a sentence with its numbers; where it does not, that is said as well. */
export function Adds({ account }: { readonly account: Account }) {
  const { rows, logs, batches } = account;
  const standing = logs.all - logs.notCounted - logs.takenBack;
  const sentences = [
    `${counted(standing, "log")} counted, ${logs.notCounted} not counted yet, ${logs.takenBack} taken back: ${counted(logs.all, "log")} in all.`,
    ...(rows.takenBack === 0
      ? []
      : [`The logs taken back had ${counted(rows.takenBack, "row")}; they are not in the sum above.`]),
    rows.onSlips === null
      ? "A log of the programme is among them, of which only the rows of this site are meant here."
      : `Their sending slips name ${counted(rows.onSlips, "row")}${rows.onSlips === rows.rows ? ", the same number" : ": that is another number, and must not be"}.`,
    `${counted(batches.usable, "batch", "batches")} with both weights and ${batches.here - batches.usable} without: ${counted(batches.here, "batch", "batches")} here, by the sums that the figures rest on.`,
    `The table of batches has ${counted(batches.listed, "line")}${batches.listed === batches.here ? ", one for each" : ": that is another number, and must not be"}.`,
  ];
  return (
    <ul>
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}
