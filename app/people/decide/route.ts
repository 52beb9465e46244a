import { goBack } from "../../note";
import { asSignedIn, complaintOf, textsOf } from "../../posted";

/** Makes a code for a new password, or ends what somebody may do. */
export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const { id = "", name = "", what } = textsOf(await request.formData());
    try {
      if (what === "end") {
        await api.people.end({ id });
        return goBack(request, "/people", { told: { name, ended: "yes" } });
      }
      const { code } = await api.people.reset({ id });
      return goBack(request, "/people", { told: { name, code } });
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, "/people", { wrong: { main: sentence } });
    }
  });
}
