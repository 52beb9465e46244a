import { goBack, goTo } from "../../../note";
import { asSignedIn, complaintOf, textsOf } from "../../../posted";
import { answersOf } from "../../answersOf";
import { packSaid, unpackSaid } from "../../said";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Looks at a log again with some answers, or counts it with them. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const fields = textsOf(await request.formData());
    const { state, answers: before } = await api.logs.file({ file });
    const answers = answersOf(fields, unpackSaid(fields.said) ?? before);
    const { month = "", year = "", period = "" } = fields;
    const chosen = month === "" ? period : `${year}-${month}`;
    const said = packSaid(answers);
    const query = new URLSearchParams({
      ...(chosen === "" ? {} : { month: chosen }),
      ...(said === null ? {} : { said }),
    });
    const here = `/send/${file}?${query}`;
    if (fields.next !== "send") {
      return said === null
        ? goBack(request, here, {
            wrong: {
              needs:
                "These are more answers than can be looked at at once. Send the log with them; the rest can be answered afterwards.",
            },
          })
        : goTo(`${here}#needs`);
    }
    try {
      const done = await api.logs.count({
        file,
        answers,
        again: state === "counted",
        ...(chosen === "" ? {} : { period: chosen }),
      });
      return goTo("slip" in done ? `/slip/${done.slip.file}` : here);
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, here, { wrong: { needs: sentence } });
    }
  });
}
