import { goBack, goTo } from "../../note";
import { asSignedIn, complaintOf, formOf } from "../../posted";

const HERE = "/files?site=(programme)";

/** Keeps a log of several sites and leads on to looking at it. */
export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const log = (await formOf(request)).get("log");
    if (!(log instanceof File) || log.name === "")
      return goBack(request, HERE, { wrong: { log: "Choose the file of the log." } });
    if (log.size === 0)
      return goBack(request, HERE, {
        wrong: { log: "The file is empty. Look whether the right one was chosen." },
      });
    try {
      const bytes = new Uint8Array(await log.arrayBuffer());
      const { file } = await api.sent.arriveBySite({ bytes, name: log.name.slice(-255) });
      return goTo(`/send/${file}`);
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, HERE, { wrong: { log: sentence } });
    }
  });
}
