import type { Declaration } from "#server/jobs/declare";
import { apiAs, type Io, needed, WrongCall, wordsOf } from "./command";

/** `sites list`, `sites add CODE`. */
export async function sites(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, {
    name: { type: "string" },
    method: { type: "string" },
    pans: { type: "string" },
    hours: { type: "string" },
    zone: { type: "string" },
    language: { type: "string" },
    from: { type: "string" },
  });
  const [what = "list", code] = positionals;
  const api = await apiAs(values.as);
  if (what === "list") {
    const all = await api.sites.list();
    io.out(
      values.json
        ? `${JSON.stringify(all)}\n`
        : all.map((site) => `${site.code}  ${site.name}  ${site.method ?? "method not declared"}\n`).join(""),
    );
    return 0;
  }
  if (what !== "add") throw new WrongCall(`sites does not know ${what}.`);
  const from = values.from ?? new Date().toISOString().slice(0, 10);
  const declarations: Declaration[] = [
    { kind: "name", from, value: { name: needed(values.name, "name") } },
    { kind: "open", from, value: {} },
    ...(values.zone === undefined ? [] : [{ kind: "time-zone" as const, from, value: { zone: values.zone } }]),
    ...(values.language === undefined
      ? []
      : [{ kind: "language" as const, from, value: { language: values.language } }]),
    ...(values.method === undefined ? [] : [{ kind: "method" as const, from, value: { method: values.method } }]),
    ...(values.pans === undefined ? [] : [{ kind: "pans" as const, from, value: { pans: Number(values.pans) } }]),
    ...(values.hours === undefined ? [] : [{ kind: "hours" as const, from, value: { perDay: Number(values.hours) } }]),
  ];
  const opened = await api.sites.open({ code: needed(code, "code"), declarations });
  io.out(values.json ? `${JSON.stringify(opened)}\n` : `The site ${opened.site} is open from ${from}.\n`);
  return 0;
}
