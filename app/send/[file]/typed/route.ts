import { goBack, goTo } from "../../../note";
import { asSignedIn, complaintOf, formOf, textsOf } from "../../../posted";
import { LINES, linesOf, packTyped, typedOf } from "../../typing";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Gives a typing grid more lines, or keeps what was typed as a log and leads on to what was understood of it. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const fields = textsOf(await formOf(request));
    const lines = linesOf(fields.lines);
    const typed = typedOf(fields);
    const carried = typed === null ? null : packTyped(typed);
    const here = (length: number) =>
      `/send/${file}?${new URLSearchParams({ lines: String(length), ...(carried === null ? {} : { typed: carried }) })}`;
    if (typed === null) return goBack(request, here(lines), { wrong: { grid: "A line holds more than can be kept." } });
    if (fields.next === "more" && carried !== null) return goTo(`${here(lines + LINES)}#line-${lines + 1}`);
    try {
      const kept = await api.logs.type({ file, ...typed });
      return goTo(`/send/${kept.file}`);
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, here(lines), { wrong: { grid: sentence } });
    }
  });
}
