import { basename } from "node:path";
import type { Sending } from "#server/api/logs";
import { type Api, apiAs, type Io, WrongCall, wordsOf } from "./command";
import { bytesOf } from "./read";
import { refusalInWords, slipInWords } from "./words";

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
    const order = {
      bytes: await bytesOf(io.cwd, path),
      name: basename(path),
      ...(values.month === undefined ? {} : { period: values.month }),
      ...(values["came-by"] === undefined ? {} : { cameBy: cameBy(values["came-by"]) }),
      ...(values.claimed === undefined ? {} : { claimedAt: values.claimed }),
    };
    const sending = await sendOne(api, values.site, order);
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

function sendOne(
  api: Api,
  site: string | undefined,
  order: Parameters<Api["logs"]["sendBySite"]>[0],
): Promise<Sending> {
  return site === undefined ? api.logs.sendBySite(order) : api.logs.send({ site, ...order });
}

function cameBy(said: string): "site" | "message" {
  if (said !== "site" && said !== "message") throw new WrongCall("--came-by is site or message.");
  return said;
}
