import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { DOUBTFUL, doubtfulLog } from "../bench/doubtfulLogs";
import { PHONE, withBrowser } from "../setup/browser";
import { withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

/** A page that a phone holds: it goes packed, at some tenth of that. */
const HEAVIEST = 500_000;

async function asLead(name: string, javaScript = false) {
  const cookie = await programme().member(name, "--role", "lead", "--site", "OJ");
  const opened = await open(PHONE, javaScript);
  await opened.page.context().addCookies([cookie]);
  return opened;
}
type Page = Awaited<ReturnType<typeof open>>["page"];

async function bring(page: Page, text: string): Promise<void> {
  await page.goto("/send");
  await page.locator("#log").setInputFiles({ name: "log.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("heading", { name: "What we understood" }).waitFor();
}

test("a log in which every row is in doubt makes no page too heavy for a phone", async () => {
  const { page } = await asLead("Jonas Fell");
  for (const name of Object.keys(DOUBTFUL)) {
    await bring(page, doubtfulLog(name, 1800));
    expect((await page.content()).length, name).toBeLessThan(HEAVIEST);
  }
});

test("loads of many days that were weighed together are answered once for all, and one of them otherwise", async () => {
  const { page, wrong } = await asLead("Ana Ruiz", true);
  await bring(page, doubtfulLog("several loads under one weight", 60));
  await page.getByText("30 places show the same").waitFor();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await page.getByText("Are they in pounds?").locator("..").getByText("No, it is right as it is written").click();
  await page.getByText("For all of them: yes, count them as one set").click();
  await page.getByText("One by one", { exact: true }).click();
  await page.getByText("18 more places will be asked about").waitFor();
  await page.locator("details").getByText("No, it is right as it is written").first().click();
  await page.getByRole("button", { name: "Look again" }).click();
  await page.getByText("answers are in: which?").waitFor();
  expect(await page.getByText("Were they weighed together?").count()).toBe(0);
  await page.getByRole("button", { name: "Send" }).click();
  // 29 sets, and the two loads of the place that was answered otherwise
  await page.getByText("Batches: 31 new.").waitFor();
  expect(wrong).toEqual([]);
});
