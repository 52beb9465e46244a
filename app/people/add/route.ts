import { goBack } from "../../note";
import { asSignedIn, complaintOf, textsOf } from "../../posted";

export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const typed = textsOf(await request.formData());
    const { name = "", role = "", site = "" } = typed;
    if (role !== "officer" && role !== "lead" && role !== "auditor")
      return goBack(request, "/people", { typed, wrong: { role: "Choose what the person may do." } });
    if (role === "lead" && site === "")
      return goBack(request, "/people", { typed, wrong: { site: "Choose the site that the person leads." } });
    try {
      const added = await api.people.add({ name, role, ...(role === "lead" ? { site } : {}) });
      return goBack(request, "/people", { told: { name: added.name, password: added.password } });
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, "/people", { typed, wrong: { name: sentence } });
    }
  });
}
