import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isPassword, newPassword, passwordHash, weakness } from "#server/jobs/passwords";
import { changePassword, personOfSession, signIn, signOut, useReset } from "#server/jobs/signIn";
import type { Person } from "#server/terms/person";
import { apiOf, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const at = (time: string) => () => new Date(time);

test("a password is known again by its hash alone, and nobody's password is nobody's", async () => {
  const hash = await passwordHash("seven dry herons");
  // OWASP, Password Storage Cheat Sheet: scrypt with N = 2^15, r = 8, p = 3 is among the minimum settings.
  expect(hash).toMatch(/^scrypt\$32768\$8\$3\$[\w-]{22}\$[\w-]{43}$/);
  expect(await isPassword("seven dry herons", hash)).toBe(true);
  expect(await isPassword("seven dry heronz", hash)).toBe(false);
  expect(await isPassword("", null)).toBe(false);
});

test.each([
  ["short", "Amara", "too short"],
  ["password1", "Amara", "first that are guessed"],
  ["aaaaaaaaaa", "Amara", "first that are guessed"],
  ["amara and the sand", "Amara", "contains the name"],
  [newPassword(), "Amara", null],
  ["日本語のパスワード", "Amara", null],
])("the password %s of %s is judged", (password, name, expected) => {
  if (expected === null) expect(weakness(password, name)).toBeNull();
  else expect(weakness(password, name)).toContain(expected);
});

describe.each(KINDS)("signing in on the %s database", (kind) => {
  let opened: Opened;
  const secret = { officer: "", id: "" };
  beforeAll(async () => {
    opened = await freshStore(kind);
    const added = await apiOf(opened.store, NOW).people.add({ name: "Amara Osei", role: "officer" });
    secret.officer = added.password;
    secret.id = added.id;
  }, 120_000);
  afterAll(() => opened.close());

  test("the right password opens a session, and asks for an own password the first time", async () => {
    const answer = await signIn(opened.store, at(NOW), "Amara Osei", secret.officer, "10.0.0.1");
    if ("refused" in answer) throw new Error(answer.refused);
    expect(answer.mustChange).toBe(true);
    expect(await personOfSession(opened.store, at(NOW), answer.token)).toEqual({
      id: secret.id,
      role: "officer",
      site: null,
    });
    expect(await personOfSession(opened.store, at(NOW), `${answer.token}x`)).toBeUndefined();
    expect(
      await personOfSession(opened.store, at("2031-05-03T08:00:00Z"), answer.token),
      "idle for a day",
    ).toBeUndefined();
    await signOut(opened.store, answer.token);
    expect(await personOfSession(opened.store, at(NOW), answer.token)).toBeUndefined();
  });

  test("a wrong password and an unknown name get the same answer, and guessing is slowed down", async () => {
    const wrong = await signIn(opened.store, at(NOW), "Amara Osei", "another", "10.0.0.2");
    expect(wrong).toEqual({ refused: "wrong" });
    expect(await signIn(opened.store, at(NOW), "Nobody", "another", "10.0.0.2")).toEqual(wrong);
    for (let i = 0; i < 8; i++) await signIn(opened.store, at(NOW), "Amara Osei", `guess ${i}`, "10.0.0.3");
    expect(await signIn(opened.store, at(NOW), "Amara Osei", secret.officer, "10.0.0.4")).toEqual({
      refused: "too-many",
    });
    expect(
      await signIn(opened.store, at("2031-05-02T08:20:00Z"), "Amara Osei", secret.officer, "10.0.0.4"),
    ).toHaveProperty("token");
  }, 60_000);

  test("a changed password ends the other sessions, and a code sets a new one once and within a day", async () => {
    const later = "2031-05-02T09:00:00Z";
    const first = await signIn(opened.store, at(later), "Amara Osei", secret.officer, "10.0.0.5");
    if ("refused" in first) throw new Error(first.refused);
    const person: Person = { id: secret.id, role: "officer", site: null };
    expect(await changePassword(opened.store, at(later), person, "wrong", "nine calm herons")).toHaveProperty(
      "sentence",
    );
    const changed = await changePassword(opened.store, at(later), person, secret.officer, "nine calm herons");
    expect(changed).toHaveProperty("token");
    expect(await personOfSession(opened.store, at(later), first.token)).toBeUndefined();
    const { code } = await apiOf(opened.store, later).people.reset({ id: secret.id });
    expect(
      await useReset(opened.store, at("2031-05-03T10:00:00Z"), "Amara Osei", code, "ten calm herons", "10.0.0.6"),
    ).toEqual({ refused: "wrong" });
    expect(await useReset(opened.store, at(later), "Amara Osei", code, "short", "10.0.0.6")).toHaveProperty("weak");
    expect(await useReset(opened.store, at(later), "Amara Osei", code, "ten calm herons", "10.0.0.6")).toHaveProperty(
      "token",
    );
    expect(await useReset(opened.store, at(later), "Amara Osei", code, "ten wild herons", "10.0.0.6")).toEqual({
      refused: "wrong",
    });
  }, 60_000);

  test("a person who was ended is out at once", async () => {
    const later = "2031-05-02T10:00:00Z";
    const added = await apiOf(opened.store, later).people.add({ name: "Joy Ferro", role: "auditor" });
    const session = await signIn(opened.store, at(later), "Joy Ferro", added.password, "10.0.0.7");
    if ("refused" in session) throw new Error(session.refused);
    await apiOf(opened.store, later).people.end({ id: added.id });
    expect(await personOfSession(opened.store, at(later), session.token)).toBeUndefined();
    expect(await signIn(opened.store, at(later), "Joy Ferro", added.password, "10.0.0.7")).toEqual({
      refused: "wrong",
    });
  });
});
