import { TRPCError } from "@trpc/server";
import type { FileNow } from "#db/queries/files";
import type { Corridor } from "#server/jobs/record";
import { type Progress, Stopped, underWay } from "#server/jobs/underWay";

/** Does something with a log that is here, so that a page shows how far it is and can stop it. */
export function watched<T>(
  { corridor, found }: { readonly corridor: Corridor; readonly found: FileNow },
  doing: Progress["doing"],
  act: () => Promise<T>,
): Promise<T> {
  const { id: file, bytes: ofBytes } = found.file;
  return underWay({ file, person: corridor.person, doing, ofBytes }, act).catch((trouble) => inWords(trouble, doing));
}

/** Says of what was stopped that it was; everything else goes on as it came. */
export function inWords(trouble: unknown, doing: Progress["doing"] = "counting"): never {
  throw trouble instanceof Stopped
    ? new TRPCError({
        code: "CLIENT_CLOSED_REQUEST",
        message: `It was stopped. The log is kept as it came; what was not yet ${doing === "taking-back" ? "taken back" : "counted"} of it stays as it was.`,
      })
    : trouble;
}
