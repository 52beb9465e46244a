import { apiAs, type Io, needed, wordsOf } from "./command";

/** `withdraw FILE-ID --reason TEXT`: takes a sent log back; nothing is removed. */
export async function withdraw(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, { reason: { type: "string" } });
  const api = await apiAs(values.as);
  const answer = await api.logs.withdraw({
    file: needed(positionals[0], "file"),
    reason: needed(values.reason, "reason"),
  });
  io.out(
    values.json
      ? `${JSON.stringify(answer)}\n`
      : answer.withdrawn
        ? "Withdrawn. The same log may be sent again.\n"
        : "It was withdrawn before.\n",
  );
  return 0;
}
