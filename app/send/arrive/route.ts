import { goBack, goTo } from "../../note";
import { asSignedIn, complaintOf, formOf, textsOf } from "../../posted";

/** More at once are refused; sent again, those that are here already are the same files. */
const MOST = 20;

/** Keeps what was sent, file by file, so that one that cannot be kept stops no other, and leads on to looking at it. */
export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const form = await formOf(request);
    const typed = textsOf(form);
    const { site = "", month = "", year = "", by, claimed = "", pasted = "" } = typed;
    const back = (wrong: Record<string, string>) => goBack(request, "/send", { typed, wrong });
    const logs = form.getAll("log").filter((log) => log instanceof File && log.name !== "");
    if (pasted.trim() !== "") logs.push(new File([pasted], "pasted.txt"));
    if (site === "") return back({ site: "Choose the site that the log is of." });
    if (logs.length === 0) return back({ log: "Choose the file of the log, or paste its lines." });
    if (logs.length > MOST) return back({ log: `Send at most ${MOST} files at once.` });
    const kept = new Set<string>();
    const troubles: string[] = [];
    for (const log of logs) {
      if (!(log instanceof File)) continue;
      const named = logs.length === 1 ? "The file" : log.name;
      if (log.size === 0) {
        troubles.push(`${named} is empty. Look whether the right one was chosen.`);
        continue;
      }
      try {
        const { file } = await api.logs.arrive({
          site,
          bytes: new Uint8Array(await log.arrayBuffer()),
          name: log.name.slice(-255),
          ...(by === "message" || claimed !== "" ? { cameBy: "message" as const } : {}),
          ...(claimed === "" ? {} : { claimedAt: `${claimed}T12:00:00Z` }),
        });
        kept.add(file);
      } catch (trouble) {
        const sentence = complaintOf(trouble);
        if (sentence === null) throw trouble;
        troubles.push(logs.length === 1 ? sentence : `${log.name}: ${sentence}`);
      }
    }
    const [first] = kept;
    if (first === undefined) return back({ log: troubles.join(" ") });
    const period = month === "" ? {} : { month: `${year}-${month}` };
    if (kept.size === 1 && troubles.length === 0)
      return goTo(`/send/${first}?${new URLSearchParams(period)}`.replace(/\?$/, ""));
    const several = `/send/several?${new URLSearchParams({ files: [...kept].join("."), ...period })}`;
    return troubles.length === 0 ? goTo(several) : goBack(request, several, { wrong: { files: troubles.join(" ") } });
  });
}
