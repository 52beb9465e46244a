// A program that sends logs one after another and says each sending slip, until somebody kills it.
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { readBytes } from "#server/jobs/readBytes";
import { OPERATOR } from "#server/terms/person";
import { logNumber } from "./numberedLog";

const [dataDir = "", databaseUrl = "", first = "0", bounds = "{}"] = process.argv.slice(2);
const store = await openStore({
  dataDir,
  databaseUrl: databaseUrl === "" ? null : databaseUrl,
  databaseOwnerUrl: null,
});
const api = callerOf({ store, person: OPERATOR, clock: () => new Date(), bounds: JSON.parse(bounds) });
// The reading thread is warm before the first send, so that the killer meets sends and not its start.
await readBytes({ bytes: logNumber(0), hints: {}, bounds: JSON.parse(bounds) });
process.stdout.write("open\n");
for (let number = Number(first); ; number++) {
  const sending = await api.logs.send({ site: "OJ", bytes: logNumber(number), name: `${number}.csv` });
  process.stdout.write(`${JSON.stringify({ number, sending })}\n`);
}
