import type { IncomingHttpHeaders } from "node:http";

export interface Refusal {
  readonly status: 403 | 405 | 411 | 413;
  readonly sentence: string;
}

const READING = ["GET", "HEAD"];
const WRITING = ["POST", "PUT", "PATCH", "DELETE"];
const MIB = 2 ** 20;
/** What a form puts around a file. */
const AROUND = 64 * 1024;

/**
 * Why a request is turned away before any page sees it; null when it may pass.
 *
 * `fileBytes` is how large one sent file may be. Headers are as cleaned: forwarding headers stand there only when a
 * trusted proxy put them.
 */
export function refusal(method: string, headers: IncomingHttpHeaders, fileBytes: number): Refusal | null {
  if (READING.includes(method)) return null;
  if (!WRITING.includes(method)) return { status: 405, sentence: `Evendry does not answer ${method}.` };
  if (!isFromOwnPage(headers)) {
    return {
      status: 403,
      sentence: "This was sent from another site's page, or by a program that does not say from where.",
    };
  }
  if (headers["transfer-encoding"] !== undefined) {
    return { status: 411, sentence: "Say beforehand how long it is (Content-Length)." };
  }
  if (Number(headers["content-length"] ?? 0) > fileBytes + AROUND) {
    return {
      status: 413,
      sentence: `This is larger than ${fileBytes / MIB} MiB, the most that is taken at once. Send the log in parts, or use the command "send" on the machine that runs Evendry.`,
    };
  }
  return null;
}

/**
 * True when a browser says that a page of this very address sent the request.
 *
 * Browsers name the relation only over https or on localhost; elsewhere, as on a local network, the origin is compared
 * with the host that was asked. A request that says neither is not trusted.
 */
function isFromOwnPage(headers: IncomingHttpHeaders): boolean {
  const relation = headers["sec-fetch-site"];
  if (relation !== undefined) return relation === "same-origin" || relation === "none";
  const asked = headers["x-forwarded-host"] ?? headers.host;
  const origin = headers.origin ?? "";
  return URL.canParse(origin) && asked !== undefined && new URL(origin).host === String(asked).toLowerCase();
}
