import { expect, test } from "vitest";
import { refusal } from "#server/front/refusal";

const MIB = 2 ** 20;
const own = { host: "evendry.example", "sec-fetch-site": "same-origin" };

test("reading is never refused", () => {
  expect(refusal("GET", { host: "a", "sec-fetch-site": "cross-site" }, MIB)).toBeNull();
  expect(refusal("HEAD", {}, MIB)).toBeNull();
});

test.each([
  { said: "the browser says same origin", headers: own },
  { said: "a person caused it directly", headers: { host: "a", "sec-fetch-site": "none" } },
  {
    said: "on a local network the origin is the host that was asked",
    headers: { host: "192.168.7.20:3000", origin: "http://192.168.7.20:3000" },
  },
  { said: "a port moved with the page", headers: { host: "localhost:3001", origin: "http://localhost:3001" } },
  {
    said: "a trusted proxy tells the outer name",
    headers: { host: "127.0.0.1:3000", "x-forwarded-host": "evendry.example", origin: "https://evendry.example" },
  },
])("writing passes when $said", ({ headers }) => {
  expect(refusal("POST", headers, MIB)).toBeNull();
});

test.each([
  { said: "another site's page sent it", headers: { ...own, "sec-fetch-site": "cross-site" } },
  { said: "a neighbouring site's page sent it", headers: { ...own, "sec-fetch-site": "same-site" } },
  {
    said: "the browser's word and the origin differ",
    headers: { ...own, "sec-fetch-site": "cross-site", origin: "https://evendry.example" },
  },
  { said: "the origin is another host", headers: { host: "evendry.example", origin: "https://evil.example" } },
  { said: "the origin is another port", headers: { host: "localhost:3000", origin: "http://localhost:3001" } },
  { said: "the origin is hidden", headers: { host: "evendry.example", origin: "null" } },
  { said: "nobody says where it comes from", headers: { host: "evendry.example" } },
  { said: "nobody says whom it is for", headers: { origin: "http://evendry.example" } },
])("writing is refused when $said", ({ headers }) => {
  for (const method of ["POST", "PUT", "PATCH", "DELETE"]) expect(refusal(method, headers, MIB)?.status).toBe(403);
});

test("a body without a length, or longer than a file may be, is refused in a sentence", () => {
  expect(refusal("POST", { ...own, "transfer-encoding": "chunked" }, MIB)?.status).toBe(411);
  expect(refusal("POST", { ...own, "content-length": String(10 * MIB) }, 10 * MIB)).toBeNull();
  const refused = refusal("POST", { ...own, "content-length": String(12 * MIB) }, 10 * MIB);
  expect(refused).toMatchObject({ status: 413, sentence: expect.stringContaining("larger than 10 MiB") });
});

test("methods that nothing here answers are refused", () => {
  for (const method of ["TRACE", "OPTIONS", "PROPFIND", ""]) expect(refusal(method, own, MIB)?.status).toBe(405);
});
