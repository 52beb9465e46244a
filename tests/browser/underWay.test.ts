import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { backFile } from "../bench/backFile";
import { PHONE, withBrowser } from "../setup/browser";
import { withProgramme } from "./programme";

/** So many that reading them takes any machine longer than a page waits. */
const ROWS = 250_000;

const programme = withProgramme(/^$/, { MAX_ROWS: "400000", MAX_FILE_MIB: "40" });
const open = withBrowser(() => programme().address);

test("a large log shows how far it is, also loaded again, asks anew by itself and can be stopped", async () => {
  const cookie = await programme().member("Jonas Fell", "--role", "lead", "--site", "OJ");
  const { page, wrong } = await open(PHONE, false);
  await page.context().addCookies([cookie]);
  await page.goto("/send");
  const file = { name: "back.csv", mimeType: "text/csv", buffer: backFile(ROWS, 1) };
  await page.getByLabel("The log").setInputFiles(file);
  await page.getByRole("button", { name: "Look at it first" }).click();
  const title = page.getByRole("heading", { level: 1 });
  const told = () => page.getByRole("main").textContent();
  expect(await title.textContent()).toBe("Under way: back.csv");
  expect(await told()).toContain(`of ${file.buffer.byteLength.toLocaleString("en")} bytes are read`);
  await page.reload();
  expect(await title.textContent()).toBe("Under way: back.csv");
  // without script the page comes again by itself, and then speaks of rows
  await expect.poll(told, { timeout: 20_000 }).toMatch(/and [1-9][\d,]*,000 of 250,001 rows\./);
  const here = page.url();

  const other = await programme().member("Tomas Reed", "--role", "lead", "--site", "SL");
  const elsewhere = await fetch(`${here}/stop`, {
    method: "POST",
    body: new URLSearchParams(),
    headers: { origin: programme().address, cookie: `${other.name}=${other.value}` },
    redirect: "manual",
  });
  expect(elsewhere.status).toBe(404); // of another site

  await page.getByRole("button", { name: "Stop" }).click();
  expect(await title.textContent()).toBe("Not done: back.csv");
  expect(await told()).toContain("It was stopped. The log is kept as it came, and nothing of it counts.");
  await page.reload();
  expect(await title.textContent()).toBe("Not done: back.csv");

  const withScript = await open(PHONE);
  await withScript.page.context().addCookies([cookie]);
  await withScript.page.goto(page.url());
  await withScript.page.getByRole("link", { name: "Read it again" }).click();
  const bar = withScript.page.getByRole("progressbar", { name: "How far it is" });
  await bar.waitFor();
  await withScript.page.getByText(/and [1-9][\d,]*,000 of 250,001 rows\./).waitFor({ timeout: 20_000 });
  const { violations } = await new AxeBuilder({ page: withScript.page })
    .withTags(["wcag2a", "wcag2aa", "wcag22aa"])
    .analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  expect(await withScript.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  await withScript.page.getByRole("button", { name: "Stop" }).click();
  await withScript.page.getByRole("heading", { name: "Not done: back.csv" }).waitFor();
  await page.goto("/send");
  expect(await page.getByRole("listitem").filter({ hasText: "back.csv" }).textContent()).toContain(
    "is here, not counted yet",
  );
  expect(await programme().run("verify", "--json")).toContain('"differences":[]');
  expect([...wrong, ...withScript.wrong]).toEqual([]);
});
