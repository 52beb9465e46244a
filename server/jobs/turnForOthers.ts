import { othersWait } from "#server/front/currentAnswer";
import { type Work, workAtHand } from "./underWay";

const LONGEST_MS = 300;
const LOOK_MS = 2;

/**
 * Lets everybody be answered who waits just now. Long work does so after every part: it keeps the embedded database, which
 * answers one at a time, and the thread that answers pages, whatever the database. After the longest it goes on, whoever
 * waits.
 */
export async function turnForOthers(work: Work | undefined = workAtHand(), longestMs = LONGEST_MS): Promise<void> {
  const until = performance.now() + longestMs;
  do {
    await new Promise((on) => setTimeout(on, LOOK_MS)); // also takes in who asks just now
  } while (othersWait(work) && performance.now() < until);
}
