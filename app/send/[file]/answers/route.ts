import { goBack, goTo } from "../../../note";
import { asSignedIn, complaintOf, formOf, textsOf } from "../../../posted";
import { answersOf } from "../../answersOf";
import { counts, patiently, waitNoMore } from "../../patiently";
import { packResent, resentOf } from "../../resent";
import { packSaid, unpackSaid } from "../../said";
import { countKey } from "../waitedFor";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Looks at a log again with some answers, or counts it with them. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const fields = textsOf(await formOf(request));
    const { state, answers: kept } = await api.logs.file({ file });
    const answers = answersOf(fields, unpackSaid(fields.said, kept) ?? kept);
    const { month = "", year = "", period = "" } = fields;
    const chosen = month === "" ? period : `${year}-${month}`;
    const said = packSaid(answers, kept);
    const resent = resentOf(fields);
    const query = new URLSearchParams({
      ...packResent(resent),
      ...(chosen === "" ? {} : { month: chosen }),
      ...(said === null ? {} : { said }),
    });
    const here = `/send/${file}?${query}`;
    if (fields.next !== "send" && fields.next !== "rest") {
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
      const withdraw = await toWithdraw(api, file, resent.gone, {
        answers,
        ...(chosen === "" ? {} : { period: chosen }),
      });
      const key = await countKey(file);
      if ((await api.logs.progress({ file })) === null) waitNoMore(counts, key); // what came of an earlier one
      const done = await patiently(counts, key, () =>
        fields.next === "rest"
          ? api.logs.count({ file })
          : api.logs.count({
              file,
              answers,
              again: state === "counted",
              withdraw,
              ...(resent.why === null ? {} : { why: resent.why }),
              ...(chosen === "" ? {} : { period: chosen }),
            }),
      );
      return goTo(done !== null && "slip" in done.answer ? `/slip/${done.answer.slip.file}` : here);
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, here, { wrong: { needs: sentence } });
    }
  });
}

type Api = Parameters<Parameters<typeof asSignedIn>[0]>[0];

/** The loads that were ticked: each by its id, or every one that the log lacks. */
async function toWithdraw(
  api: Api,
  file: string,
  gone: readonly string[],
  read: Omit<Parameters<Api["sent"]["difference"]>[0], "file">,
): Promise<string[]> {
  if (!gone.includes("all")) return [...gone];
  return (await api.sent.difference({ file, ...read }))?.vanished.map(({ id }) => id) ?? [];
}
