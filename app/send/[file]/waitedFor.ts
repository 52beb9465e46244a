import type { Sending } from "#server/api/logs";
import type { Api } from "#server/api/request";
import type { Progress } from "#server/jobs/underWay";
import type { Wrong } from "../../_parts/Form";
import { whoAsks } from "../../asking";
import { complaintOf, wasStopped } from "../../posted";
import { counts, KEPT_MS, patiently, STILL_MS, type Waiting, waitNoMore } from "../patiently";

type Log = Awaited<ReturnType<Api["logs"]["file"]>>;
type Look = Parameters<Api["logs"]["understood"]>[0];
type Understood = Awaited<ReturnType<Api["logs"]["understood"]>>;

interface Looked {
  readonly reading: Understood;
  readonly difference: Awaited<ReturnType<Api["sent"]["difference"]>>;
}

/** What a page shows in the place of what it waits for: how far it is, that somebody stopped it, or why it cannot be. */
export type NotYet =
  | { readonly progress: Progress | null }
  | { readonly stopped: true }
  | { readonly complaint: string };

/** What a page shows of a log: what is understood, how far that is, or its new slip. */
export type Waited = (Looked & { readonly wrong: Wrong }) | NotYet | { readonly slip: true };

const looks: Waiting<Looked> = new Map();
const readings: Waiting<Understood> = new Map();
const inShort: Waiting<string> = new Map();

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
  if (progress !== null && progress.doing !== "reading") return { progress };
  if (stopped) waitNoMore(looks, key);
  if (stopped || log.soFar !== null) return { stopped: true };
  const looked = await looking(api, looks, log, look, async () => {
    const [reading, difference] = await Promise.all([
      api.logs.understood(look),
      log.state === "withdrawn" ? null : api.sent.difference(look),
    ]);
    return { reading, difference };
  });
  return "answer" in looked ? { ...looked.answer, wrong: ended.wrong } : looked;
}

/** Waits a moment for what is understood of a log, said in short; a page of several keeps it until all have theirs. */
export async function shortlyOf(
  api: Api,
  log: Log,
  look: Look,
  say: (understood: Understood) => string,
): Promise<{ readonly answer: string } | NotYet> {
  return looking(api, inShort, log, look, async () => say(await api.logs.understood(look)), KEPT_MS);
}

/** Waits a moment for what is understood of a log, and nothing else about it. */
export async function understoodOf(api: Api, log: Log, look: Look): Promise<{ readonly answer: Understood } | NotYet> {
  return looking(api, readings, log, look, () => api.logs.understood(look));
}

async function looking<T>(
  api: Api,
  awaited: Waiting<T>,
  { file, state }: Log,
  look: Look,
  begin: () => Promise<T>,
  stillMs = STILL_MS,
): Promise<{ readonly answer: T } | NotYet> {
  try {
    const key = `${await countKey(file)} ${state} ${JSON.stringify(look)}`;
    const answered = await patiently(awaited, key, begin, stillMs);
    return answered ?? { progress: await api.logs.progress({ file }) };
  } catch (trouble) {
    const complaint = complaintOf(trouble);
    if (complaint === null) throw trouble;
    return wasStopped(trouble) ? { stopped: true } : { complaint };
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
