import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { DESK, PHONE, withBrowser } from "../setup/browser";
import { freshFolder } from "../setup/program";
import { plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);
let cookie: Awaited<ReturnType<ReturnType<typeof programme>["member"]>>;

beforeAll(async () => {
  const { member, run } = programme();
  cookie = await member("Marit Osei", "--role", "officer");
  const folder = freshFolder();
  for (const month of ["2026-02", "2026-03"]) {
    writeFileSync(join(folder.path, `${month}.csv`), plainLog(month));
    await run("send", join(folder.path, `${month}.csv`), "--site", "OJ", "--json");
  }
  folder.remove();
});

async function siteOpened(size: typeof DESK, javaScript = true, months = "from=2026-02&to=2026-03") {
  const opened = await open(size, javaScript);
  await opened.page.context().addCookies([cookie]);
  await opened.page.goto(`/sites/OJ?${months}`, { waitUntil: "networkidle" });
  return opened;
}

test("without script the panels stand there with their table, and nothing offers what cannot work", async () => {
  const { page, wrong } = await siteOpened(PHONE, false);
  await page.getByRole("img", { name: /^The site over time/ }).waitFor();
  expect(await page.getByRole("button", { name: "Look closer" }).count()).toBe(0);
  await page.getByText("Show as a table").first().click();
  await page.getByRole("table", { name: /^The site over time/ }).waitFor();
  expect(wrong).toEqual([]);
});

test.each([DESK, PHONE])("on demand the panels are drawn anew and moved about by keyboard, at %j", async (size) => {
  const { page, wrong } = await siteOpened(size);
  const scripts: string[] = [];
  page.on("request", (request) => {
    if (request.resourceType() === "script") scripts.push(request.url());
  });
  const still = page.getByRole("img", { name: /^The site over time/ });
  const look = page.getByRole("button", { name: "Look closer" });
  await look.focus();
  await page.waitForTimeout(200);
  expect(scripts, "before anybody asked").toEqual([]);
  await page.keyboard.press("Enter");
  await page.locator("canvas").first().waitFor();
  expect(scripts.length, "its program was fetched").toBeGreaterThan(0);
  const told = page.getByRole("status").filter({ hasText: " to " });
  await told.filter({ hasText: "1 Feb 2026 to 31 Mar 2026" }).waitFor();
  await page.getByRole("button", { name: "Closer", exact: true }).press("Enter");
  await told.filter({ hasText: "16 Feb 2026 to 17 Mar 2026" }).waitFor();
  await page.getByText("Show as a table").first().click();
  await page.getByRole("table", { name: /^The site over time/ }).waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
  expect(await page.locator("style").count(), "style elements").toBe(0);
  await look.press("Enter");
  await page.locator("canvas").first().waitFor({ state: "detached" });
  expect(await still.isVisible()).toBe(true);
  expect(wrong).toEqual([]);
});

test("a month of a site prints on one page", async () => {
  const { page } = await siteOpened(DESK, true, "from=2026-03&to=2026-03");
  const pdf = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
  expect([...pdf.matchAll(/\/Type \/Page\b/g)]).toHaveLength(1);
});
