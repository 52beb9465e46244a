/**
 * Goes on in silence where nobody reads any more what this process says: a terminal that was closed, a pipe to a program
 * that ended, a full disk. Without it, saying that nothing can be said would never end.
 */
export function goOnUnheard() {
  for (const stream of [process.stdout, process.stderr]) stream.on("error", () => {});
}
