import { COMPARED_WORDS, littleInWords, spreadInWords } from "#app/_words/comparison";
import { figureInWords } from "#app/_words/figures";
import { programmeInWords } from "#app/_words/programme";
import { COMPARED } from "#server/compare/entry";
import { apiAs, type Io, needed, wordsOf } from "./command";

/** `compare --month YYYY-MM [--as-of TIME]`: the sites of a month side by side, like with like. */
export async function compare(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, { month: { type: "string" }, "as-of": { type: "string" } });
  const month = needed(values.month, "month");
  const asOf = values["as-of"] === undefined ? {} : { asOf: values["as-of"] };
  const api = await apiAs(values.as);
  const compared = await api.compare.month({ month, ...asOf });
  if (values.json) {
    io.out(`${JSON.stringify(compared)}\n`);
    return 0;
  }
  const { signals, behind } = await api.signals.standing({ month, ...asOf });
  const changed = [...new Set(signals.filter(({ together }) => !together).flatMap(({ site }) => site ?? []))];
  io.out(`${programmeInWords(month, { ...compared.programme, changed, behind })}\n`);
  for (const { site, name, method, cells } of compared.rows) {
    io.out(`${site} ${name}${method === null ? "" : `, ${method}`}\n`);
    for (const measure of COMPARED) {
      const { figure, little } = cells[measure];
      const thin = little === null ? "" : `; ${littleInWords(little, figure.restsOn.of)}`;
      io.out(`  ${COMPARED_WORDS[measure].name}: ${figureInWords(figure)}${thin}\n`);
    }
  }
  for (const peers of compared.peers) {
    if (peers.spread === null) continue;
    const unit = compared.rows.find(({ cells }) => cells[peers.measure].figure.known)?.cells[peers.measure].figure.unit;
    io.out(
      `${COMPARED_WORDS[peers.measure].name}, ${peers.sites.join(", ")}: ${spreadInWords(peers, unit ?? "kg/kg")}\n`,
    );
  }
  return 0;
}
