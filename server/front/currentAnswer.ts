import { AsyncLocalStorage } from "node:async_hooks";
import type { ServerResponse } from "node:http";

/** One for all bundles that share the process: the front server fills it, pages ask it. */
const here: typeof globalThis & { evendryAnswers?: AsyncLocalStorage<ServerResponse> } = globalThis;
here.evendryAnswers ??= new AsyncLocalStorage();
const answers = here.evendryAnswers;

/** Answers a request so that a page, while it is made, can still say with which status. */
export function whileAnswering(response: ServerResponse, answer: () => Promise<void>): Promise<void> {
  return answers.run(response, answer);
}

/**
 * Says that the page that is being made is answered with 404.
 *
 * The page server's own way to say so sends an empty page that only a script fills: nothing to read without one.
 */
export function answerNothingHere(): void {
  const response = answers.getStore();
  if (response !== undefined && !response.headersSent) response.statusCode = 404;
}

/** Says that what is being answered may do nothing at all where a browser opens it in place. */
export function answerSandboxed(): void {
  answers.getStore()?.setHeader("content-security-policy", "sandbox; default-src 'none'");
}
