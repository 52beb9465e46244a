// The thread that reads logs. Plain JavaScript because a thread is started by its path; everything else is TypeScript.
import { parentPort } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { handedOver } = await import("#server/intake/handedOver");
const { readOrder } = await import("./readOrder.ts");

/** So many rows are handed over at once: unpacking them keeps the thread that answers pages for some twenty milliseconds. */
const AT_ONCE = 1000;
/** What is read and not handed over yet. */
let left = [];

parentPort?.on("message", (order) => {
  if (order === "more") {
    parentPort.postMessage({ more: handedOver(left.splice(0, AT_ONCE)) });
    return;
  }
  try {
    const reading = readOrder(order, (rows, of) => parentPort?.postMessage({ rows, of }));
    left = "rows" in reading ? reading.rows : [];
    parentPort.postMessage({ reading: "rows" in reading ? { ...reading, rows: [] } : reading, to: left.length });
  } catch (trouble) {
    parentPort.postMessage({
      trouble: trouble instanceof Error ? (trouble.stack ?? trouble.message) : String(trouble),
    });
  }
});
