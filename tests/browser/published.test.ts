import { writeFileSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
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
  const send = async (text: string, name: string) => {
    writeFileSync(join(folder.path, name), text);
    await run("send", join(folder.path, name), "--site", "OJ", "--json");
  };
  const log = plainLog("2026-02");
  await send(log, "february.csv");
  await run("publish", "--site", "OJ", "--month", "2026-02");
  // the first load, 1.6 kg of 5, was weighed with its bowl
  await send(log.replace(",1,1,5,1.6,", ",1,1,5,1.3,"), "february again.csv");
  folder.remove();
});

async function opened(path: string, size: typeof DESK, javaScript: boolean) {
  const watched = await open(size, javaScript);
  await watched.page.context().addCookies([cookie]);
  await watched.page.goto(path, { waitUntil: "networkidle" });
  return watched;
}

test("without script the month names each figure known otherwise, and leads to what was published", async () => {
  const { page, wrong } = await opened("/sites/OJ/2026-02", PHONE, false);
  const told = page.getByRole("region", { name: "What was published" });
  const text = (await told.textContent()) ?? "";
  expect(text).toMatch(/^Published on \d+ \w{3} \d{4} \(record \d+\): \d+ figures differ from what is known today\./);
  const [, was, is] = /Dry yield: published ([\d.]+ %); as known today ([\d.]+ %)/.exec(text) ?? [];
  expect(Number.parseFloat(is ?? "")).toBeLessThan(Number.parseFloat(was ?? ""));
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  await told.getByRole("link", { name: "Show the month as known then" }).click();
  await page.getByText(/^As known with \d+ records\.$/).waitFor();
  const shown = page.locator("dl > div").filter({ has: page.getByText("Dry yield", { exact: true }) });
  expect(await shown.first().textContent()).toContain(was);
  expect(wrong).toEqual([]);
});

test("the evidence counts the months known otherwise and leads to them, axe clean", async () => {
  const { page, wrong } = await opened("/evidence?site=all&from=2026-01&to=2026-03", DESK, true);
  await page.getByText("Of 1 month published, none stands as published; 1 is known otherwise by now:").waitFor();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await page.getByRole("link", { name: "Old Jetty, February 2026" }).click();
  await page.getByRole("region", { name: "What was published" }).waitFor();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  expect(wrong).toEqual([]);
});
