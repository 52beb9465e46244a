import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { PASSWORD, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

test("the first sign-in asks for an own password, and works without script", async () => {
  const given = await programme().add("Jonas Fell", "--role", "lead", "--site", "OJ");
  const { page, wrong } = await open(PHONE, false);
  await page.goto("/sites/OJ");
  expect(page.url()).toContain("/sign-in?to=");
  await page.getByLabel("Your name").fill("Jonas Fell");
  await page.getByLabel("Password").fill(given);
  await page.getByRole("button", { name: "Sign in" }).click();
  expect(page.url()).toContain("/password");
  await page.goto("/sites/OJ"); // nothing is shown before
  expect(page.url()).toContain("/password");
  const [cookie] = await page.context().cookies();
  const asked = await fetch(`${programme().address}/api/trpc/people.me`, {
    headers: { cookie: `${cookie?.name}=${cookie?.value}` },
  });
  expect(asked.status).toBe(401);
  await page.getByLabel("Present password").fill(given);
  await page.getByLabel("New password").fill(PASSWORD);
  await page.getByRole("button", { name: "Set it and go on" }).click();
  expect(page.url()).toMatch(/\/sites\/OJ$/);
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.goto("/sites/OJ");
  expect(page.url()).toContain("/sign-in");
  expect(wrong).toEqual([]);
});

test("a wrong name and a wrong password are answered alike, and what was typed stays", async () => {
  await programme().add("Ada Quill", "--role", "auditor");
  const { page } = await open();
  const said: (string | null)[] = [];
  for (const name of ["Ada Quill", "Nobody Here"]) {
    await page.goto("/sign-in");
    await page.getByLabel("Your name").fill(name);
    await page.getByLabel("Password").fill("not the password");
    await page.getByRole("button", { name: "Sign in" }).click();
    const summary = page.getByRole("alert").filter({ hasText: "another look" });
    await summary.waitFor();
    said.push(await summary.textContent());
    expect(await page.getByLabel("Your name").inputValue()).toBe(name);
    expect(await page.getByLabel("Password").inputValue()).toBe("");
    expect(await page.title()).toMatch(/^Another try/);
    await summary.getByRole("link").click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("name");
  }
  expect(said[0]).toBe(said[1]);
  expect(page.url()).not.toContain("Nobody");
});

test("a code sets a new password once", async () => {
  await programme().member("Ines Harrow", "--role", "officer");
  const { code } = JSON.parse(await programme().run("people", "reset", "Ines Harrow", "--json")) as { code: string };
  const { page } = await open(PHONE, false);
  for (const works of [true, false]) {
    await page.context().clearCookies();
    await page.goto("/sign-in/code");
    await page.getByLabel("Your name").fill("Ines Harrow");
    await page.getByLabel("Code").fill(code);
    await page.getByLabel("New password").fill("two herons on the weir");
    await page.getByRole("button", { name: /Set the password/ }).click();
    if (works) expect(page.url()).toMatch(/\/compare$/);
    else expect(await page.locator("#code-wrong").textContent()).toContain("Ask for a new one");
  }
});

test("the session's cookie cannot be read by script, goes nowhere else, and is named for plain http", async () => {
  const given = await programme().add("Lea Moor", "--role", "auditor");
  const enter = (headers: Record<string, string>) =>
    fetch(`${programme().address}/sign-in/enter`, {
      method: "POST",
      body: new URLSearchParams({ name: "Lea Moor", password: given, to: "//elsewhere.example/" }),
      headers,
      redirect: "manual",
    });
  const plain = await enter({ origin: programme().address });
  expect(plain.headers.get("set-cookie")).toMatch(/^evendry=[\w-]{43}; Path=\/; HttpOnly; SameSite=Lax; Expires=/);
  expect(plain.headers.get("location")).toBe("/password");
  expect((await enter({ origin: "http://elsewhere.example" })).status).toBe(403);
});

test("a lead is answered for another site's page as for one that does not exist", async () => {
  const cookie = await programme().member("Mira Sand", "--role", "lead", "--site", "OJ");
  const asked = async (path: string) => {
    const answer = await fetch(`${programme().address}${path}`, {
      headers: { cookie: `${cookie.name}=${cookie.value}` },
    });
    const text = (await answer.text()).replaceAll(/nonce[\\":=]+[\w+/]+/g, "");
    return { status: answer.status, text: text.replaceAll(/SL|ZZ/g, "…") };
  };
  for (const path of ["", "/2026-02", "/facts"]) {
    const foreign = await asked(`/sites/SL${path}`);
    expect(foreign.status).toBe(404);
    expect(foreign.text).toContain("<h1>There is nothing here</h1>"); // also without script
    expect(foreign).toEqual(await asked(`/sites/ZZ${path}`));
  }
  expect((await asked("/people")).status).toBe(404);
  expect((await asked("/sites/new")).status).toBe(404);
  expect((await asked("/sites/OJ")).status).toBe(200);
});
