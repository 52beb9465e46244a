import { FACTS, type FactKind } from "#server/terms/facts";
import { goBack, goTo } from "../../note";
import { asSignedIn, complaintOf, textsOf } from "../../posted";
import { declarationsOf } from "./declarationsOf";

/** What to do about a field, said beside it. */
const SAID: Readonly<Partial<Record<FactKind, { readonly field: string; readonly sentence: string }>>> = {
  name: { field: "name", sentence: "Write the name of the site." },
  pans: { field: "pans", sentence: "Write how many pans there are, from 1 to 200." },
  hours: { field: "hours", sentence: "Write how many hours a day, more than 0 and at most 24." },
  schedule: { field: "perDay", sentence: "Write how many loads a day, from 1 to 500." },
  due: { field: "due", sentence: "Write a day of the month from 1 to 28." },
};

export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const typed = textsOf(await request.formData());
    const declarations = declarationsOf(typed);
    const wrong = Object.fromEntries(
      declarations.flatMap(({ kind, value }) => {
        const said = SAID[kind];
        return said === undefined || FACTS[kind].safeParse(value).success ? [] : [[said.field, said.sentence]];
      }),
    );
    if ((typed.zone ?? "") !== "" && !isZone(typed.zone ?? ""))
      wrong.zone = "This time zone is not known. Write it like Africa/Mombasa.";
    if (Object.keys(wrong).length > 0) return goBack(request, "/sites/new", { typed, wrong });
    try {
      const { site } = await api.sites.open({ code: (typed.code ?? "").trim(), declarations });
      return goTo(`/sites/${site}/facts`);
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, "/sites/new", { typed, wrong: { code: sentence } });
    }
  });
}

function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat("en", { timeZone: zone.trim() }).resolvedOptions().timeZone !== "";
  } catch {
    return false;
  }
}
