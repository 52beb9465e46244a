import { goBack, goTo } from "../../note";
import { asSignedIn, complaintOf, textsOf } from "../../posted";

/** Keeps a log that was sent, and leads on to what was understood of it. */
export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const form = await request.formData();
    const typed = textsOf(form);
    const { site = "", month = "", year = "", by, claimed = "" } = typed;
    const log = form.get("log");
    if (site === "") return goBack(request, "/send", { typed, wrong: { site: "Choose the site that the log is of." } });
    if (!(log instanceof File) || log.name === "")
      return goBack(request, "/send", { typed, wrong: { log: "Choose the file of the log." } });
    if (log.size === 0)
      return goBack(request, "/send", {
        typed,
        wrong: { log: "The file is empty. Look whether the right one was chosen." },
      });
    try {
      const { file } = await api.logs.arrive({
        site,
        bytes: new Uint8Array(await log.arrayBuffer()),
        name: log.name.slice(-255),
        ...(by === "message" || claimed !== "" ? { cameBy: "message" as const } : {}),
        ...(claimed === "" ? {} : { claimedAt: `${claimed}T12:00:00Z` }),
      });
      return goTo(`/send/${file}${month === "" ? "" : `?month=${year}-${month}`}`);
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, "/send", { typed, wrong: { log: sentence } });
    }
  });
}
