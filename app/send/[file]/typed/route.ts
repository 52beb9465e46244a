import { TYPED_COLUMNS } from "#server/api/typing";
import { goBack, goTo } from "../../../note";
import { asSignedIn, complaintOf, formOf, textsOf } from "../../../posted";
import { linesOf, moreLines, nextLine, packTyped, typedOf } from "../../typing";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Goes on with a typing grid at its next line, gives it more lines, or keeps what was typed as a log and leads on to what was understood of it. */
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
    if (carried !== null && (fields.next === "stay" || fields.next === "more")) {
      const next = fields.next === "stay" ? nextLine(typed) : lines + 1;
      const length = next > lines ? moreLines(lines) : lines;
      return goTo(`${here(length)}#${Math.min(length, next)}.${columnOf(fields.at)}`);
    }
    // what is too much for an address is kept as a log in any case
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

function columnOf(said: string | undefined): string {
  return TYPED_COLUMNS.find((column) => column === said) ?? "day";
}
