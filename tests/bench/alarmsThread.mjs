// One thread of the alarm bench: a programme's year for each order.
import { parentPort } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
const { calmYear } = await import("./calmYear.ts");
parentPort?.on("message", ({ habit, seed }) => parentPort?.postMessage(calmYear(habit, seed)));
