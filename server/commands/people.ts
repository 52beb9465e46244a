import { type Api, apiAs, type Io, needed, WrongCall, WrongData, wordsOf } from "./command";

/** `people list`, `people add`, `people reset`, `people end`. */
export async function people(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, {
    role: { type: "string" },
    site: { type: "string" },
    name: { type: "string" },
  });
  const [what = "list", ...words] = positionals;
  const api = await apiAs(values.as);
  const name = () => needed(values.name ?? words.join(" "), "name");
  const [answer, sentence] = await done(api, what, name, values.role, values.site);
  io.out(values.json ? `${JSON.stringify(answer)}\n` : sentence);
  return 0;
}

async function done(
  api: Api,
  what: string,
  name: () => string,
  role: string | undefined,
  site: string | undefined,
): Promise<[unknown, string]> {
  if (what === "list") {
    const all = await api.people.list();
    return [all, all.map((one) => `${one.name}  ${one.role}${one.active ? "" : " (ended)"}\n`).join("")];
  }
  if (what === "add") {
    if (role !== "officer" && role !== "lead" && role !== "auditor")
      throw new WrongCall("--role is officer, lead or auditor.");
    const added = await api.people.add({ name: name(), role, ...(site === undefined ? {} : { site }) });
    return [
      added,
      `${added.name} may sign in as ${added.role} with the password ${added.password} (told this once; a new one is asked for).\n`,
    ];
  }
  const person = await named(api, name());
  if (what === "reset") {
    const { code } = await api.people.reset({ id: person.id });
    return [
      { name: person.name, code },
      `${person.name} may set a new password within a day with the code ${code} (told this once).\n`,
    ];
  }
  if (what === "end") {
    const { ended } = await api.people.end({ id: person.id });
    return [{ name: person.name, ended }, `${person.name} may act no more.\n`];
  }
  throw new WrongCall(`people does not know ${what}.`);
}

async function named(api: Api, name: string) {
  const person = (await api.people.list()).find((one) => one.name === name && one.active);
  if (person === undefined) throw new WrongData(`There is nobody called ${name}.`);
  return person;
}
