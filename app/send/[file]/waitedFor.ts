import type { Sending } from "#server/api/logs";
import type { Api } from "#server/api/request";
import type { Progress } from "#server/jobs/underWay";
import type { Wrong } from "../../_parts/Form";
import { whoAsks } from "../../asking";
import { complaintOf } from "../../posted";
import { counts, patiently, type Waiting, waitNoMore } from "../patiently";

type Log = Awaited<ReturnType<Api["logs"]["file"]>>;
type Look = Parameters<Api["logs"]["understood"]>[0];

interface Looked {
  readonly reading: Awaited<ReturnType<Api["logs"]["understood"]>>;
  readonly difference: Awaited<ReturnType<Api["sent"]["difference"]>>;
}

/** What a page shows of a log: what is understood, how far that is, its new slip, or that somebody stopped it. */
export type Waited =
  | (Looked & { readonly wrong: Wrong })
  | { readonly progress: Progress | null }
  | { readonly slip: true }
  | { readonly stopped: true };

const looks: Waiting<Looked> = new Map();

/** Under which the counting of a log by this person is waited for. */
export async function countKey(file: string): Promise<string> {
  return `${(await whoAsks()).person?.id} ${file}`;
}

/** Waits a moment for what is under way with a log, or else begins to read it; after a stop nothing begins by itself. */
export async function waitedFor(api: Api, log: Log, look: Look, stopped: boolean): Promise<Waited> {
  const { file } = log;
  const key = await countKey(file);
  const ended = await endOfCounting(key);
  if (ended === null) return { progress: await api.logs.progress({ file }) };
  if ("slip" in ended) return ended;
  const progress = await api.logs.progress({ file });
  if (progress?.doing === "counting") return { progress };
  if (stopped) waitNoMore(looks, key);
  if (stopped || log.soFar !== null) return { stopped: true };
  try {
    const looked = await patiently(
      looks,
      `${key} ${log.state} ${JSON.stringify(look)}`,
      async () => {
        const [reading, difference] = await Promise.all([
          api.logs.understood(look),
          log.state === "withdrawn" ? null : api.sent.difference(look),
        ]);
        return { reading, difference };
      },
      true,
    );
    return looked === null ? { progress: await api.logs.progress({ file }) } : { ...looked.answer, wrong: ended.wrong };
  } catch (trouble) {
    if (complaintOf(trouble) === null) throw trouble;
    return { stopped: true };
  }
}

/** What came of counting that this person began; null where it goes on. */
async function endOfCounting(key: string): Promise<{ readonly slip: true } | { readonly wrong: Wrong } | null> {
  const counting: Promise<Sending> | undefined = counts.get(key);
  if (counting === undefined) return { wrong: {} };
  try {
    const ended = await patiently(counts, key, () => counting);
    if (ended === null) return null;
    return "slip" in ended.answer ? { slip: true } : { wrong: {} };
  } catch (trouble) {
    const needs = complaintOf(trouble);
    if (needs === null) throw trouble;
    return { wrong: { needs } };
  }
}

/** What an address asked, without what only one look is for. */
export function queryOf(asked: Readonly<Record<string, string | undefined>>): string {
  const kept = ["month", "said", "gone", "why", "whyWords"].flatMap((name) => {
    const said = asked[name];
    return said === undefined || said === "" ? [] : [[name, said]];
  });
  return new URLSearchParams(kept).toString();
}
