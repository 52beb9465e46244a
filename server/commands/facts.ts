import { FACT_KINDS, type FactKind } from "#server/terms/facts";
import { FUELS, HOW_KNOWN } from "#server/terms/fuel";
import { type Api, apiAs, type Io, needed, WrongCall, wordsOf } from "./command";

const OPTIONS = {
  from: { type: "string" },
  to: { type: "string" },
  key: { type: "string" },
  "take-back": { type: "boolean" },
} as const;

/** In the place of a site's code: what is declared of the whole programme. */
const PROGRAMME = "programme";

/**
 * `facts CODE`: lists what is declared. `facts CODE KIND --from DAY --FIELD VALUE …`: declares it; a field is a plain word
 * with hyphens ("--per-day 20"), a list is written with commas. `facts CODE fuel-used …`: fuel burned over some days.
 */
export async function facts(argv: readonly string[], io: Io): Promise<number> {
  const { fields, rest } = splitFields(argv);
  const { values, positionals } = wordsOf(rest, OPTIONS);
  const [site, kind] = positionals;
  const api = await apiAs(values.as);
  if (kind === undefined) {
    const all =
      site === PROGRAMME ? await api.programme.facts({}) : await api.sites.facts({ site: needed(site, "site") });
    io.out(
      values.json
        ? `${JSON.stringify(all)}\n`
        : all
            .map((fact) => `${fact.from}–${fact.to ?? ""}  ${fact.kind} ${fact.key}  ${JSON.stringify(fact.value)}\n`)
            .join(""),
    );
    return 0;
  }
  const code = needed(site, "site");
  const from = needed(values.from, "from");
  if (kind === "fuel-used")
    await api.sites.declareFuel({ site: code, from, to: values.to ?? from, ...fuelUsed(fields) });
  else
    await declareOne(api, code, kind, {
      from,
      to: values.to ?? null,
      key: values.key ?? "",
      value: values["take-back"] ? null : fieldsAsValue(fields),
    });
  io.out(
    values.json
      ? `${JSON.stringify({ site: code, kind, declared: 1 })}\n`
      : `Declared for ${code}: ${kind} from ${from}.\n`,
  );
  return 0;
}

async function declareOne(
  api: Api,
  site: string,
  kind: string,
  fact: { from: string; to: string | null; key: string; value: unknown },
): Promise<void> {
  const known = FACT_KINDS.find((one): one is FactKind => one === kind);
  if (known === undefined)
    throw new WrongCall(`There is no fact ${kind}. There are: ${[...FACT_KINDS, "fuel-used"].join(", ")}.`);
  const declarations = [{ kind: known, ...fact }];
  if (site !== PROGRAMME) await api.sites.declare({ site, declarations });
  else if (known === "false-alarms" || known === "target")
    await api.programme.declare({ declarations: [{ kind: known, ...fact }] });
  else throw new WrongCall(`Of the programme itself are declared false-alarms and target; ${kind} is of a site.`);
}

/** Options that are not the command's own are fields of the fact. */
function splitFields(argv: readonly string[]): { fields: Map<string, string>; rest: string[] } {
  const own = ["json", "as", ...Object.keys(OPTIONS)];
  const fields = new Map<string, string>();
  const rest: string[] = [];
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i] ?? "";
    const name = word.startsWith("--") ? word.slice(2) : null;
    if (name === null || own.includes(name.split("=")[0] ?? "")) {
      rest.push(word);
      if (name !== null && !name.includes("=") && name !== "json" && name !== "take-back") rest.push(argv[++i] ?? "");
      continue;
    }
    const [field = "", ...after] = name.split("=");
    fields.set(
      field.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase()),
      after.length > 0 ? after.join("=") : (argv[++i] ?? ""),
    );
  }
  return { fields, rest };
}

const LISTS = ["weekdays"];
const TEXTS = ["name", "reason", "zone", "source", "text"];

function fieldsAsValue(fields: ReadonlyMap<string, string>): Record<string, unknown> {
  return Object.fromEntries(
    [...fields].map(([field, text]) => {
      if (LISTS.includes(field)) return [field, text.split(",").map(Number)];
      return [field, TEXTS.includes(field) ? text : plainValue(text)];
    }),
  );
}

function plainValue(text: string): string | number | boolean {
  if (text === "yes" || text === "true") return true;
  if (text === "no" || text === "false") return false;
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}

function fuelUsed(fields: ReadonlyMap<string, string>) {
  const fuel = FUELS.find((one) => one === fields.get("fuel"));
  const how = HOW_KNOWN.find((one) => one === (fields.get("how") ?? "weighed"));
  if (fuel === undefined) throw new WrongCall(`--fuel is one of ${FUELS.join(", ")}.`);
  if (how === undefined) throw new WrongCall(`--how is one of ${HOW_KNOWN.join(", ")}.`);
  const [unit, name] =
    (
      [
        ["kg", "kg"],
        ["kWh", "kwh"],
        ["L", "litres"],
        ["m3", "m3"],
      ] as const
    ).find(([, option]) => fields.has(option)) ?? [];
  if (unit === undefined || name === undefined) throw new WrongCall("Say how much: --kg, --kwh, --litres or --m3.");
  const low = fields.get("low");
  const high = fields.get("high");
  return {
    fuel,
    how,
    unit,
    best: Number(fields.get(name)),
    ...(low === undefined ? {} : { low: Number(low) }),
    ...(high === undefined ? {} : { high: Number(high) }),
  };
}
