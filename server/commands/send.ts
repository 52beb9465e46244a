import { statSync } from "node:fs";
import { basename, resolve } from "node:path";
import type { Sending } from "#server/api/logs";
import { Source } from "#server/jobs/source";
import { readSettings } from "#server/settings";
import { type Api, apiAs, type Io, WrongCall, wordsOf } from "./command";
import { bytesOf } from "./read";
import { refusalInWords, rowsStored, slipInWords } from "./words";

/** `send FILE…`: stores logs through intake, one after another, and prints their sending slips. */
export async function send(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, {
    site: { type: "string" },
    "by-site": { type: "boolean" },
    month: { type: "string" },
    "came-by": { type: "string" },
    claimed: { type: "string" },
  });
  if (positionals.length === 0) throw new WrongCall("Say which file to send.");
  if ((values.site === undefined) === (values["by-site"] !== true))
    throw new WrongCall("Say either --site CODE or --by-site.");
  const api = await apiAs(values.as);
  const slips: unknown[] = [];
  let exit = 0;
  for (const path of positionals) {
    const about = {
      name: basename(path),
      ...(values.month === undefined ? {} : { period: values.month }),
      ...(values["came-by"] === undefined ? {} : { cameBy: cameBy(values["came-by"]) }),
      ...(values.claimed === undefined ? {} : { claimedAt: values.claimed }),
    };
    const sending = await sendOne(api, values.site, resolve(io.cwd, path), about, (rows) => {
      if (!values.json) io.err(`${rowsStored(rows)}\n`);
    });
    if ("unreadable" in sending) exit = 1;
    slips.push(
      "slip" in sending
        ? sending.slip
        : {
            refused: sending.unreadable.refused,
            detail: sending.unreadable.detail,
            text: refusalInWords(sending.unreadable),
          },
    );
    if (!values.json)
      io.out("slip" in sending ? slipInWords(sending.slip) : `${path}: ${refusalInWords(sending.unreadable)}\n`);
  }
  if (values.json) io.out(`${JSON.stringify(slips)}\n`);
  return exit;
}

type About = Omit<Parameters<Api["logs"]["sendBySite"]>[0], "bytes" | "answers">;

/** Reads a log whole where the installation's bounds allow it, and part by part where it is larger. */
async function sendOne(
  api: Api,
  site: string | undefined,
  path: string,
  about: About,
  stored: (rows: number) => void,
): Promise<Sending> {
  if (sizeOf(path) <= readSettings().bounds.bytes) {
    const order = { bytes: await bytesOf("", path), ...about };
    const sending = site === undefined ? await api.logs.sendBySite(order) : await api.logs.send({ site, ...order });
    if (!("unreadable" in sending) || sending.unreadable.refused !== "too-many-rows") return sending;
  }
  const order = { source: Source.at(path), ...about, onPart: ({ rows }: { rows: number }) => stored(rows) };
  return site === undefined ? api.logs.sendLargeBySite(order) : api.logs.sendLarge({ site, ...order });
}

/** 0 for a file that is not there: reading it says so. */
function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

function cameBy(said: string): "site" | "message" {
  if (said !== "site" && said !== "message") throw new WrongCall("--came-by is site or message.");
  return said;
}
