import { dayInWords, monthInWords } from "#app/_words/days";
import { limitsInWords, mayMean, QUESTION_WORDS, signalInWords } from "#app/_words/signals";
import { plusMonths } from "#server/terms/days";
import { apiAs, type Io, wordsOf } from "./command";

/** `signals [--site CODE] [--from YYYY-MM] [--to YYYY-MM] [--as-of TIME]`: what changed, since when, what to ask first. */
export async function signals(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, {
    site: { type: "string" },
    from: { type: "string" },
    to: { type: "string" },
    "as-of": { type: "string" },
  });
  const to = values.to ?? values.from ?? new Date().toISOString().slice(0, 7);
  const from = values.from ?? plusMonths(to, -11);
  const api = await apiAs(values.as);
  const { signals: found, months } = await api.signals.list({
    from,
    to,
    ...(values.site === undefined ? {} : { site: values.site }),
    ...(values["as-of"] === undefined ? {} : { asOf: values["as-of"] }),
  });
  if (values.json) {
    io.out(`${JSON.stringify(found.map(({ raisedOn, ...signal }) => ({ ...signal, raised: raisedOn })))}\n`);
    return 0;
  }
  if (found.length === 0) io.out(`No signal was raised from ${monthInWords(from)} to ${monthInWords(to)}.\n`);
  for (const signal of found) {
    const again = signal.confirms === null ? "" : ` It says again what was raised on ${dayInWords(signal.confirms)}.`;
    const who = signal.site ?? "The sites together,";
    const shared = signal.together ? " Other sites moved the same way then." : "";
    io.out(`${who} ${signal.method}: ${signalInWords(signal)}${again}${shared} ${mayMean(signal)}\n`);
    for (const question of signal.questions) io.out(`  ${QUESTION_WORDS[question]}\n`);
  }
  const last = months.at(-1);
  if (last !== undefined) io.out(`${limitsInWords(last.accepted, last.streams, last.expectedFalse)}\n`);
  return 0;
}
