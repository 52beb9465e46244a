import { goBack } from "../../../note";
import { asSignedIn, complaintOf, textsOf } from "../../../posted";
import { answerOf } from "../answerOf";

interface Context {
  readonly params: Promise<{ readonly id: string }>;
}

/** Records what was found out about a signal; what is wrong goes back to the form with all that was typed. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const id = decodeURIComponent((await params).id);
    const here = `/signals/${id}`;
    const typed = textsOf(await request.formData());
    const answer = answerOf(typed);
    if ("wrong" in answer) return goBack(request, here, { typed, wrong: answer.wrong });
    try {
      await api.signals.answer({ id, ...answer });
      return goBack(request, here, { told: { done: answer.kind } });
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, here, { typed, wrong: { [answer.kind === "data-error" ? "days" : "from"]: sentence } });
    }
  });
}
