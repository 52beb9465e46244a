import { expect, test } from "vitest";
import { newId } from "#server/jobs/newId";

// RFC 9562, section 5.7: 48 bits of Unix time in milliseconds, version 7, variant 10.
test("an id has the form of version 7 and begins with its time", () => {
  const id = newId(new Date("2022-02-22T19:22:22.000Z"));
  expect(id).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});

test("ids of one millisecond follow each other as they are made, also beyond the count that fits in it", () => {
  const ids = Array.from({ length: 10_000 }, () => newId(new Date("2032-01-01T00:00:00Z")));
  expect(ids).toEqual([...ids].sort());
  expect(new Set(ids.map((id) => id.slice(19))).size).toBe(ids.length);
});
