import type { IncomingHttpHeaders } from "node:http";

/**
 * What a browser may do on our pages: nothing but what comes from here, and scripts only with this answer's nonce.
 *
 * Style attributes are allowed, style elements are not: charts and pages set sizes and places by attribute, and an
 * attribute can neither choose elements nor fetch. While developing, the rebuilding tool needs eval and inline styles.
 */
export function contentPolicy(nonce: string, developing: boolean): string {
  return [
    "default-src 'none'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${developing ? " 'unsafe-eval'" : ""}`,
    `style-src 'self'${developing ? " 'unsafe-inline'" : ""}`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "object-src 'none'",
    "frame-ancestors 'none'",
  ].join("; ");
}

/** Headers of every answer besides its content policy. */
export function guardHeaders(path: string, encrypted: boolean): Record<string, string> {
  return {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
    ...(encrypted ? { "strict-transport-security": "max-age=31536000" } : {}),
    // Built files carry a hash in their names and may be kept for ever; everything else is somebody's and may not.
    ...(path.startsWith("/_next/static/") ? {} : { "cache-control": "private, no-store" }),
  };
}

const FORWARDING = ["x-forwarded-for", "x-forwarded-host", "x-forwarded-proto"] as const;

/**
 * Takes out of a request what only we may say, and puts our policy in, from which pages learn their nonce.
 *
 * Behind a trusted proxy of ours the forwarding headers stay, of several addresses the last, which is the one that
 * the proxy itself saw. From anybody else they are dropped, and the page server fills in what the connection shows.
 */
export function cleanHeaders(headers: IncomingHttpHeaders, policy: string, trustedProxy: boolean): void {
  const kept = trustedProxy ? FORWARDING.map((name) => [name, lastOf(headers[name])] as const) : [];
  for (const name of Object.keys(headers)) {
    if (/^(x-forwarded-|x-middleware-|x-real-ip$|forwarded$|content-security-policy)/.test(name)) delete headers[name];
  }
  for (const [name, value] of kept) if (value !== undefined) headers[name] = value;
  headers["content-security-policy"] = policy;
}

function lastOf(value: string | string[] | undefined): string | undefined {
  return [value].flat().join(",").split(",").at(-1)?.trim() || undefined;
}
