import { expect, test } from "vitest";
import { placeOn, sharedScale } from "#app/_charts/scale";
import { ownPath } from "#app/ownPath";
import { isEncrypted, sessionCookie, sessionHeader } from "#app/sessionCookie";
import { knownAsked, monthAsked, monthsAsked } from "#app/sites/monthsAsked";
import { declarationsOf } from "#app/sites/open/declarationsOf";
import { known, unknown } from "#server/terms/figure";

test("a session's cookie is bound to https and this host where there is https, and works on a plain local address", () => {
  expect(sessionHeader(true, "abc", "2031-06-03T10:00:00.000Z")).toBe(
    "__Host-evendry=abc; Path=/; HttpOnly; SameSite=Lax; Secure; Expires=Tue, 03 Jun 2031 10:00:00 GMT",
  );
  expect(sessionHeader(false, "abc", "2031-06-03T10:00:00.000Z")).not.toContain("Secure");
  expect(sessionHeader(false, null, null)).toBe("evendry=; Path=/; HttpOnly; SameSite=Lax; Max-Age=0");
  expect(sessionCookie(isEncrypted(new Headers({ "x-forwarded-proto": "https" })))).toBe("__Host-evendry");
  expect(sessionCookie(isEncrypted(new Headers({ "x-forwarded-proto": "http" })))).toBe("evendry");
});

test.each([
  "//elsewhere.example",
  "/\\elsewhere.example",
  "https://elsewhere.example",
  "javascript:alert(1)",
  "",
  undefined,
])("after signing in nobody is led to %s", (path) => expect(ownPath(path)).toBe("/"));

test("after signing in one is led to where one wanted to go", () => {
  expect(ownPath("/sites/OJ/2031-03?known=2031-04-01")).toBe("/sites/OJ/2031-03?known=2031-04-01");
});

test("an address without months shows the twelve up to the last full one", () => {
  expect(monthsAsked({}, "2031-03-31")).toEqual({ from: "2030-03", to: "2031-02" });
  expect(monthsAsked({ from: "2031-01", to: "2031-03" }, "2031-06-01")).toEqual({ from: "2031-01", to: "2031-03" });
  expect(monthsAsked({ from: "2031-05", to: "2031-03" }, "2031-06-01")).toEqual({ from: "2030-04", to: "2031-03" });
  expect(monthsAsked({ from: "1999-01", to: "2031-03" }, "2031-06-01")).toEqual({ from: "2026-04", to: "2031-03" });
  expect(monthAsked({ month: "2031-13" })).toBeNull();
  expect(monthAsked({ month: "02", year: "2031" })).toBe("2031-02");
  expect(knownAsked({ known: "2031-02-30" })).toBeUndefined();
  expect(knownAsked({ known: "2031-02-13" })).toBe("2031-02-13");
});

test("figures of a column share a scale that holds their intervals", () => {
  const about = {
    unit: "kg/kg",
    restsOn: { used: 9, here: 9, owed: null, of: "batches" },
    asKnownOn: { ledgerSize: 1, time: null },
  } as const;
  const one = known({ ...about, value: 0.3, interval: { low: 0.2, high: 0.4, level: 0.95 } });
  const two = known({ ...about, value: 0.5 });
  const none = unknown({ ...about, why: "nothing-logged" });
  const scale = sharedScale([one, none, two]);
  expect(scale).not.toBeNull();
  if (scale === null) return;
  expect(placeOn(scale, 0.2)).toBeCloseTo((0.018 / 0.336) * 100, 9); // a margin of 6 % of 0.3 on each side
  expect(placeOn(scale, 0.35)).toBeCloseTo(50, 9);
  expect(placeOn(scale, 9)).toBe(100);
  expect(sharedScale([none])).toBeNull();
  expect(sharedScale([two])).toEqual({ low: 0.45, high: 0.55 });
});

test("the form for a new site declares what was filled in, and nothing else", () => {
  const declared = declarationsOf({
    code: "OJ",
    name: " Old Jetty ",
    from: "2031-01-01",
    pans: "2",
    hours: "7,5",
    zone: "",
    weekday1: "yes",
    weekday6: "yes",
    perDay: "12",
    due: "many",
  });
  expect(declared).toEqual([
    { kind: "name", from: "2031-01-01", value: { name: "Old Jetty" } },
    { kind: "open", from: "2031-01-01", value: {} },
    { kind: "pans", from: "2031-01-01", value: { pans: 2 } },
    { kind: "hours", from: "2031-01-01", value: { perDay: 7.5 } },
    { kind: "schedule", from: "2031-01-01", value: { weekdays: [1, 6], perDay: 12, of: "loads" } },
    { kind: "due", from: "2031-01-01", value: { dayOfMonth: "many" } },
  ]);
});
