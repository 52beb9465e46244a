import { type Io, sentenceOf, WrongCall } from "#server/commands/command";
import { compare } from "#server/commands/compare";
import { evidence } from "#server/commands/evidence";
import { facts } from "#server/commands/facts";
import { figures } from "#server/commands/figures";
import { people } from "#server/commands/people";
import { publish } from "#server/commands/publish";
import { read } from "#server/commands/read";
import { runlength } from "#server/commands/runlength";
import { send } from "#server/commands/send";
import { signals } from "#server/commands/signals";
import { sites } from "#server/commands/sites";
import { verify } from "#server/commands/verify";
import { watch } from "#server/commands/watch";
import { withdraw } from "#server/commands/withdraw";
import { CannotStart } from "./cannotStart";

/** Every command with what it takes, as `help` prints it. */
const COMMANDS = {
  read: {
    run: read,
    takes: "FILE… [--month YYYY-MM] [--site CODE] | --grid FILE… [--out-dir DIR]",
    does: "reads logs and stores nothing",
  },
  send: {
    run: send,
    takes: "FILE… --site CODE | --by-site [--month YYYY-MM] [--came-by message]",
    does: "sends logs; prints sending slips",
  },
  withdraw: { run: withdraw, takes: "FILE-ID --reason TEXT", does: "takes a sent log back" },
  people: {
    run: people,
    takes: "list | add NAME --role ROLE [--site CODE] | reset NAME | end NAME",
    does: "says who may act",
  },
  sites: {
    run: sites,
    takes: "list | add CODE --name NAME [--method M] [--pans N] [--hours H] [--from DAY]",
    does: "says which sites there are",
  },
  facts: {
    run: facts,
    takes: "CODE|programme [KIND --from DAY [--to DAY] [--key KEY] --FIELD VALUE … | --take-back]",
    does: "declares and lists facts",
  },
  figures: {
    run: figures,
    takes: "--site CODE|all --from YYYY-MM --to YYYY-MM [--as-of TIME]",
    does: "prints figures with what they rest on",
  },
  compare: {
    run: compare,
    takes: "--month YYYY-MM [--as-of TIME]",
    does: "sets the sites of a month side by side, like with like",
  },
  signals: {
    run: signals,
    takes: "[--site CODE] [--from YYYY-MM] [--to YYYY-MM] [--as-of TIME]",
    does: "says what changed, since when, and what to ask first",
  },
  evidence: {
    run: evidence,
    takes: "--site CODE|all --from YYYY-MM --to YYYY-MM [--as-of TIME] --out-dir DIR",
    does: "writes the evidence tables as CSV, and as one workbook",
  },
  publish: { run: publish, takes: "--site CODE --month YYYY-MM", does: "freezes a month's figures" },
  watch: {
    run: watch,
    takes: "FILE.csv [--chart drift, individuals, ewma or cusum] [--accept 1 | its parameters] [--help]",
    does: "watches any dated series for change",
  },
  runlength: {
    run: runlength,
    takes:
      "--chart ewma, cusum or individuals [--lambda L] [--clamp C] [--allowance K] --limit X or --mean M [--shift S] [--help]",
    does: "points until a chart signals, or the limit for a mean",
  },
  verify: { run: verify, takes: "", does: "recomputes everything from the originals" },
} as const;

/**
 * Runs one command. Answers the exit code: 0 fine, 1 the data are wrong, 2 the call is wrong.
 *
 * `--json` prints one JSON value on `out` and nothing else there; sentences go to `err`.
 */
export async function runCommand(argv: readonly string[], io: Io): Promise<number> {
  const [name = "help", ...words] = argv;
  const command = Object.entries(COMMANDS).find(([known]) => known === name)?.[1];
  if (command === undefined) {
    const wanted = name === "help" || name === "--help";
    (wanted ? io.out : io.err)(`${wanted ? "" : `There is no command ${name}.\n`}${overview()}`);
    return wanted ? 0 : 2;
  }
  if (words.includes("--help") && !command.takes.includes("[--help]")) {
    io.out(`${name} ${command.takes}\n    ${command.does}\n`);
    return 0;
  }
  try {
    return await command.run(words, io);
  } catch (trouble) {
    if (trouble instanceof CannotStart) {
      io.err(`${trouble.message}\n`);
      return 1;
    }
    const told = sentenceOf(trouble);
    if (told === null) throw trouble;
    io.err(`${told.sentence}\n${trouble instanceof WrongCall ? `It is: ${name} ${command.takes}\n` : ""}`);
    return told.exit;
  }
}

function overview(): string {
  const lines = Object.entries(COMMANDS).map(([name, { takes, does }]) => `  ${name} ${takes}\n      ${does}`);
  return `npm run -s evendry -- COMMAND …\n\n${lines.join("\n")}\n\nEvery command takes --json and --as NAME.\n`;
}
