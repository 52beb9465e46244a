import { apiAs, type Io, needed, wordsOf } from "./command";

/** `publish --site CODE --month YYYY-MM`: freezes a month's figures as they are known now. */
export async function publish(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, { site: { type: "string" }, month: { type: "string" } });
  const api = await apiAs(values.as);
  const published = await api.figures.publish({
    site: needed(values.site, "site"),
    month: needed(values.month, "month"),
  });
  io.out(
    values.json
      ? `${JSON.stringify(published)}\n`
      : `${published.site} ${published.month} is published as record ${published.ledgerIndex}: edition ${published.edition}, as known with ${published.knownSize} records, SHA-256 ${published.digest}.\n`,
  );
  return 0;
}
