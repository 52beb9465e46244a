/** Over https the name itself forbids other hosts and plain http to set it; a phone on a local address has no https. */
export function sessionCookie(encrypted: boolean): string {
  return encrypted ? "__Host-evendry" : "evendry";
}

/** Whether the browser's line is encrypted, as the connection or our own proxy says. */
export function isEncrypted(headers: Headers): boolean {
  return headers.get("x-forwarded-proto") === "https";
}

/**
 * The cookie that carries a session, or ends it where `token` is null.
 *
 * Lax, not Strict: a link in a message must find its reader signed in. Nothing that changes is done by a link.
 */
export function sessionHeader(encrypted: boolean, token: string | null, until: string | null): string {
  const parts = [`${sessionCookie(encrypted)}=${token ?? ""}`, "Path=/", "HttpOnly", "SameSite=Lax"];
  if (encrypted) parts.push("Secure");
  parts.push(token === null || until === null ? "Max-Age=0" : `Expires=${new Date(until).toUTCString()}`);
  return parts.join("; ");
}
