// The thread that reads logs. Plain JavaScript because a thread is started by its path; everything else is TypeScript.
import { parentPort } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { readOrder } = await import("./readOrder.ts");

parentPort?.on("message", (order) => {
  try {
    parentPort.postMessage({ reading: readOrder(order, (rows, of) => parentPort?.postMessage({ rows, of })) });
  } catch (trouble) {
    parentPort.postMessage({
      trouble: trouble instanceof Error ? (trouble.stack ?? trouble.message) : String(trouble),
    });
  }
});
