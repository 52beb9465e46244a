import { type SettledTimes, settledInWords } from "../_words/settled";

/** Who settled what a log left open: as site lead or officer, when, and how many answers. */
export function SettledBy({ settled }: { readonly settled: SettledTimes }) {
  const sentence = settledInWords(settled);
  return sentence === null ? null : <p>{sentence}</p>;
}
