// The thread that watches. Plain JavaScript because a thread is started by its path; everything else is TypeScript.
import { parentPort } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { watchPlan } = await import("./watchPlan.ts");

parentPort?.on("message", (order) => {
  try {
    parentPort.postMessage({ rows: watchPlan(order) });
  } catch (trouble) {
    parentPort.postMessage({
      trouble: trouble instanceof Error ? (trouble.stack ?? trouble.message) : String(trouble),
    });
  }
});
