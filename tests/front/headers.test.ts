import { expect, test } from "vitest";
import { cleanHeaders, contentPolicy, guardHeaders } from "#server/front/headers";

test("the policy names this answer's nonce and lets no inline script through without it", () => {
  const policy = contentPolicy("abc", false);
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("script-src 'self' 'nonce-abc' 'strict-dynamic';");
  expect(policy).toContain("frame-ancestors 'none'");
  expect(policy).not.toContain("unsafe-eval");
  expect(policy.match(/[^;]*unsafe-inline[^;]*/g)).toEqual([" style-src-attr 'unsafe-inline'"]);
});

test("what a client says as policy is overwritten, in both its forms", () => {
  const headers = { "content-security-policy": "script-src 'nonce-evil'", "content-security-policy-report-only": "x" };
  cleanHeaders(headers, "ours", false);
  expect(headers).toEqual({ "content-security-policy": "ours" });
});

test("forwarding headers from anybody are dropped", () => {
  const headers = {
    host: "evendry.example",
    "x-forwarded-for": "10.0.0.1",
    "x-forwarded-host": "evil.example",
    "x-forwarded-proto": "https",
    "x-forwarded-port": "1",
    "x-real-ip": "10.0.0.1",
    forwarded: "for=10.0.0.1",
    "x-middleware-subrequest": "a:a:a",
  };
  cleanHeaders(headers, "ours", false);
  expect(headers).toEqual({ host: "evendry.example", "content-security-policy": "ours" });
});

test("of a trusted proxy's forwarding headers the last address counts, which the proxy itself saw", () => {
  const headers = { "x-forwarded-for": "6.6.6.6, 10.0.0.9", "x-forwarded-proto": "https", "x-real-ip": "6.6.6.6" };
  cleanHeaders(headers, "ours", true);
  expect(headers).toEqual({
    "x-forwarded-for": "10.0.0.9",
    "x-forwarded-proto": "https",
    "content-security-policy": "ours",
  });
});

test("nothing is kept on the way but files whose name holds their hash", () => {
  expect(guardHeaders("/sites/1", false)["cache-control"]).toBe("private, no-store");
  expect(guardHeaders("/_next/static/chunks/1.js", false)["cache-control"]).toBeUndefined();
});

test("only an encrypted connection is told to stay encrypted", () => {
  expect(guardHeaders("/", false)["strict-transport-security"]).toBeUndefined();
  expect(guardHeaders("/", true)["strict-transport-security"]).toBe("max-age=31536000");
});
