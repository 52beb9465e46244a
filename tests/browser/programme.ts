import { afterAll, beforeAll } from "vitest";
import { addressOf, freshFolder, runNode, runStart, stopped } from "../setup/program";
import { PASSWORD, signedInAs } from "../setup/signedIn";

export { PASSWORD };

export interface Programme {
  readonly address: string;
  /** where everything is kept */
  readonly dataDir: string;
  /** runs a command beside the server, as the operator */
  run(...words: readonly string[]): Promise<string>;
  /** adds somebody and answers the password that they are given */
  add(name: string, ...words: readonly string[]): Promise<string>;
  /** adds somebody who has set an own password, and answers the cookie of their session */
  member(name: string, ...words: readonly string[]): Promise<Cookie>;
}

interface Cookie {
  readonly name: string;
  readonly value: string;
  readonly url: string;
}

/**
 * The real program with an empty folder of its own and two sites, for all tests of a file. What the server complains of
 * must be what is expected; nothing, if not said.
 */
export function withProgramme(complaints = /^$/): () => Programme {
  const folder = freshFolder();
  const running = runStart(["--port", "0", "--empty"], { DATA_DIR: folder.path });
  let address = "";
  beforeAll(async () => {
    address = await addressOf(running);
    await run(
      "sites",
      "add",
      "OJ",
      "--name",
      "Old Jetty",
      "--method",
      "sand-pan",
      "--pans",
      "2",
      "--hours",
      "8",
      "--from",
      "2026-01-01",
    );
    await run("sites", "add", "SL", "--name", "Salt Lane", "--method", "sand-pan", "--from", "2026-01-01");
    await run(
      "facts",
      "OJ",
      "schedule",
      "--from",
      "2026-01-01",
      "--weekdays",
      "1,2,3,4,5,6",
      "--per-day",
      "2",
      "--of",
      "batches",
    );
  });
  afterAll(async () => {
    const { exit, err } = await stopped(running);
    folder.remove();
    if (exit !== 0 || !complaints.test(err))
      throw new Error(`The server under test ended with ${exit} and complained:\n${err}`);
  });

  async function run(...words: readonly string[]): Promise<string> {
    const { exit, out, err } = await runNode(["server/evendry.mjs", ...words], { DATA_DIR: folder.path }).ended;
    if (exit !== 0) throw new Error(`${words.join(" ")} ended with ${exit}: ${err}`);
    return out;
  }

  async function add(name: string, ...words: readonly string[]): Promise<string> {
    const { password } = JSON.parse(await run("people", "add", name, ...words, "--json")) as { password: string };
    return password;
  }

  async function member(name: string, ...words: readonly string[]): Promise<Cookie> {
    const given = await add(name, ...words);
    const [cookie = "", value = ""] = (await signedInAs(address, name, given)).split("=");
    return { name: cookie, value, url: address };
  }

  return () => ({ address, dataDir: folder.path, run, add, member });
}

/** A log of two loads a day that needs nobody, from a day of a month on. */
export function plainLog(month: string, days = 6): string {
  const rows = Array.from({ length: days * 2 }, (_, at) => {
    const day = String(13 + Math.floor(at / 2)).padStart(2, "0");
    return `${day}/${month.slice(5)}/${month.slice(0, 4)},${at + 1},${(at % 2) + 1},${5 + (at % 3) / 10},${1.6 + (at % 4) / 50},${80 + at},1.4`;
  });
  return ["Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,Gas (kg)", ...rows].join("\n");
}

/** A log whose dates and unit can mean two things, with two rows that somebody must look at. */
export const PUZZLING_LOG = `Date;Fresh;Dried (kg);Minutes
3/2/2026;5,20;1,75;80
4/2/2026;1,250;0,41;75
5/2/2026;1,7;5,2;90
6/2/2026;abc;1,6;80
7/2/2026;4,80;1,55;85
Total;;;
`;
