import { apiAs, type Io, wordsOf } from "./command";

/** `verify`: recomputes everything from the originals and names any difference. Exit 1 when there is one. */
export async function verify(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, {});
  const api = await apiAs(values.as);
  const found = await api.ledger.verify();
  if (values.json) io.out(`${JSON.stringify(found)}\n`);
  else {
    const { records, files, rows, daySums, publications, signals } = found.checked;
    io.out(
      `Checked ${records} records, ${files} files, ${rows} rows, ${daySums} day sums, ${publications} published months, ${signals} signals.\n`,
    );
    for (const { what, where, detail } of found.differences) io.out(`  ${what}: ${where}: ${detail}\n`);
    io.out(
      found.differences.length === 0
        ? `Everything is as it was recorded. Root of ${records} records: ${found.root}\n`
        : "",
    );
  }
  return found.differences.length === 0 ? 0 : 1;
}
