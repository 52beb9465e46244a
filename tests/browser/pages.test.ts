import { writeFileSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import { beforeAll, expect, test } from "vitest";
import { DESK, PHONE, withBrowser } from "../setup/browser";
import { freshFolder } from "../setup/program";
import { PUZZLING_LOG, plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);
const cookies = new Map<string, Awaited<ReturnType<ReturnType<typeof programme>["member"]>>>();
let counted = "";
let puzzling = "";

beforeAll(async () => {
  const { member, run, address } = programme();
  cookies.set("officer", await member("Marit Osei", "--role", "officer"));
  cookies.set("lead", await member("Jonas Fell", "--role", "lead", "--site", "OJ"));
  cookies.set("auditor", await member("Ada Quill", "--role", "auditor"));
  const folder = freshFolder();
  for (const month of ["2026-02", "2026-03"]) writeFileSync(join(folder.path, `${month}.csv`), plainLog(month));
  writeFileSync(join(folder.path, "puzzling.csv"), PUZZLING_LOG);
  const slips = [];
  for (const month of ["2026-02", "2026-03"])
    slips.push(await run("send", join(folder.path, `${month}.csv`), "--site", "OJ", "--json"));
  counted = (JSON.parse(slips[0] ?? "[]") as { file: string }[])[0]?.file ?? "";
  const held = await run("send", join(folder.path, "puzzling.csv"), "--site", "OJ", "--json");
  puzzling = (JSON.parse(held) as { file: string }[])[0]?.file ?? "";
  folder.remove();
  expect(address).toMatch(/^http:/);
});

/** WCAG 2.2, 1.4.10: nothing scrolls sideways on a screen of 320 px. */
const NARROWEST = { width: 320, height: 640 };
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

const PAGES: readonly { who: "officer" | "lead" | "auditor" | null; path: () => string }[] = [
  { who: null, path: () => "/sign-in" },
  { who: null, path: () => "/sign-in/code" },
  { who: "lead", path: () => "/password" },
  { who: "lead", path: () => "/send" },
  { who: "officer", path: () => "/send" },
  { who: "lead", path: () => `/send/${puzzling}` },
  { who: "lead", path: () => `/slip/${puzzling}` },
  { who: "officer", path: () => `/slip/${counted}` },
  { who: "auditor", path: () => `/files/${counted}` },
  { who: "officer", path: () => "/sites?month=2026-02" },
  { who: "officer", path: () => "/sites/OJ?from=2025-11&to=2026-04" },
  { who: "auditor", path: () => "/sites/OJ/2026-02" },
  { who: "lead", path: () => "/sites/OJ/2026-01?known=2026-01-15" },
  { who: "lead", path: () => "/sites/OJ/facts" },
  { who: "officer", path: () => "/sites/new" },
  { who: "officer", path: () => "/people" },
  { who: "officer", path: () => "/how" },
  { who: "officer", path: () => "/compare?month=2026-02" },
  { who: "officer", path: () => "/compare/apart?month=2026-02&first=OJ&second=SL" },
  { who: "auditor", path: () => "/compare?month=2026-03&sort=record&known=2026-01-15" },
  { who: "auditor", path: () => "/evidence?from=2026-02&to=2026-03" },
  { who: "lead", path: () => "/evidence" },
  { who: "auditor", path: () => "/sites/OJ/2026-02/batches" },
  { who: "lead", path: () => "/sheets" },
  { who: "lead", path: () => "/sheets/sw/load" },
  { who: "lead", path: () => "/nothing-here" },
];

const NAMED = PAGES.map(({ who, path }) => [`${who ?? "nobody"}, ${path()}`, { who, path }] as const);

test.each(NAMED)("the page of %s suits phone and desk, light and dark, and everybody", async (_, { who, path }) => {
  for (const size of [PHONE, DESK]) {
    const { page, wrong } = await open(size);
    const cookie = who === null ? undefined : cookies.get(who);
    if (cookie !== undefined) await page.context().addCookies([cookie]);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      if (colorScheme === "light") await page.goto(path());
      await page.getByRole("heading", { level: 1 }).waitFor();
      const axe = new AxeBuilder({ page });
      // in the dark the same page stands there with other colours
      const looked = colorScheme === "light" ? axe.withTags(RULES) : axe.withRules(["color-contrast"]);
      const { violations } = await looked.analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
    }
    if (size === PHONE) {
      await page.setViewportSize(NARROWEST);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(NARROWEST.width);
    }
    expect(wrong.filter((complaint) => !complaint.includes("status of 404"))).toEqual([]);
  }
});

test("a month is shown as known on a day, at once with script and by a new page without", async () => {
  const cookie = cookies.get("officer");
  for (const javaScript of [true, false]) {
    const { page, wrong } = await open(DESK, javaScript);
    if (cookie !== undefined) await page.context().addCookies([cookie]);
    await page.goto("/sites/OJ/2026-03");
    const fresh = page.locator("dl > div").filter({ has: page.getByRole("link", { name: "Fresh in" }) });
    expect(await fresh.textContent()).toContain("rests on 12 of");
    await page.getByLabel(/^As known on/).fill("2026-01-02");
    await page.getByRole("button", { name: "Show it so" }).click();
    await page.getByRole("status").filter({ hasText: "As known on 2 Jan 2026." }).waitFor();
    await fresh.filter({ hasText: "nothing logged" }).waitFor();
    expect(page.url()).toContain("known=2026-01-02");
    expect(wrong).toEqual([]);
  }
});

test("the bytes of a log come back as they went, under a name of ours and to be kept only", async () => {
  const cookie = cookies.get("auditor");
  const answer = await fetch(`${programme().address}/files/${counted}/original`, {
    headers: { cookie: `${cookie?.name}=${cookie?.value}` },
  });
  expect(await answer.text()).toBe(plainLog("2026-02"));
  expect(answer.headers.get("content-disposition")).toMatch(/^attachment; filename="[0-9a-f]{64}\.bin"$/);
  expect(answer.headers.get("content-security-policy")).toContain("sandbox");
});

test("procedures take only JSON from our own pages, ten at once, and tell nothing of our insides", async () => {
  const { address } = programme();
  const call = (path: string, more: RequestInit = {}) => fetch(`${address}/api/trpc/${path}`, more);
  expect((await call("people.me")).status).toBe(401);
  const eleven = Array.from({ length: 11 }, () => "people.me").join(",");
  expect((await call(`${eleven}?batch=1&input={}`)).status).toBe(400);
  const form = { method: "POST", headers: { origin: address }, body: new URLSearchParams({ a: "b" }) };
  expect((await call("figures.publish", form)).status).toBe(415);
  const foreign = {
    method: "POST",
    headers: { origin: "http://elsewhere.example", "content-type": "application/json" },
    body: "{}",
  };
  expect((await call("figures.publish", foreign)).status).toBe(403);
  expect(await (await call("nothing.here")).text()).not.toMatch(/stack|node_modules|\/server\//);
});

test("an officer opens a site and adds its lead, whose password is shown once", async () => {
  const cookie = cookies.get("officer");
  const { page, wrong } = await open(DESK);
  if (cookie !== undefined) await page.context().addCookies([cookie]);
  await page.goto("/sites/new");
  await page.getByLabel("Code", { exact: true }).fill("UF");
  await page.getByLabel("Name", { exact: true }).fill("Upper Ferry");
  await page.getByLabel("Pans").fill("0");
  await page.getByRole("button", { name: "Open the site" }).click();
  await page.getByRole("link", { name: "Write how many pans there are, from 1 to 200." }).waitFor();
  expect(await page.getByLabel("Name", { exact: true }).inputValue()).toBe("Upper Ferry");
  await page.getByLabel("Pans").fill("3");
  await page.getByRole("button", { name: "Open the site" }).click();
  await page.getByRole("heading", { name: "What is declared of Upper Ferry" }).waitFor();

  await page.goto("/people");
  await page.getByLabel("Name to sign in with").fill("Tomas Reed");
  await page.getByLabel("Site of a site lead").selectOption("UF");
  await page.getByRole("button", { name: "Add" }).click();
  expect(await page.getByRole("status").textContent()).toMatch(
    /First password of Tomas Reed, shown this once:\s*\w{4}-\w{4}-\w{4}-\w{4}/,
  );
  await page.goto("/people");
  expect(await page.getByText("shown this once").count()).toBe(0);
  expect(wrong).toEqual([]);
});

test("a lead declares a closed day and a month without production, and takes one back", async () => {
  const cookie = cookies.get("lead");
  const { page } = await open(PHONE, false);
  if (cookie !== undefined) await page.context().addCookies([cookie]);
  await page.goto("/sites/OJ/facts");
  await page.getByLabel("First closed day").fill("2026-03-02");
  await page.getByLabel("Last closed day").fill("2026-03-03");
  await page.getByLabel("Why").fill("High water");
  await page.getByRole("button", { name: "Declare closed days" }).click();
  expect(await page.getByText("High water").count()).toBe(1);
  await page.goto("/sites/OJ/2026-03");
  expect(await page.getByText("2 closed days, not owed.").count()).toBe(1);
  await page.goto("/sites/OJ/facts");
  await page.getByRole("button", { name: "Take it back" }).click();
  await page.goto("/sites/OJ/2026-03");
  expect(await page.getByText("2 closed days, not owed.").count()).toBe(0);
});
