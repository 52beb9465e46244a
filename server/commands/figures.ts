import { figureInWords } from "#app/_words/figures";
import { rowsOfFigures } from "#server/evidence/figureRows";
import { apiAs, type Io, needed, wordsOf } from "./command";

/** `figures --site CODE|all --from YYYY-MM --to YYYY-MM [--as-of TIME]`: figures with what they rest on. */
export async function figures(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, {
    site: { type: "string" },
    from: { type: "string" },
    to: { type: "string" },
    "as-of": { type: "string" },
  });
  const site = needed(values.site, "site");
  const from = needed(values.from, "from");
  const span = { from, to: values.to ?? from, ...(values["as-of"] === undefined ? {} : { asOf: values["as-of"] }) };
  const api = await apiAs(values.as);
  const months = site === "all" ? await api.figures.all(span) : await api.figures.site({ site, ...span });
  if (values.json) io.out(`${JSON.stringify(rowsOfFigures(months))}\n`);
  else {
    for (const { code, month, method, figures } of months) {
      io.out(`${code} ${month}${method === null ? "" : ` ${method}`}\n`);
      for (const [measure, figure] of Object.entries(figures)) io.out(`  ${measure}: ${figureInWords(figure)}\n`);
    }
  }
  return 0;
}
