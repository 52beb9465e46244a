import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { backFile } from "../bench/backFile";
import { PHONE, withBrowser } from "../setup/browser";
import { withProgramme } from "./programme";

/** Nearly as many as a page takes; looking at them and counting them take longer than a page waits. */
const ROWS = 19_900;

const programme = withProgramme();
const open = withBrowser(() => programme().address);

test("a large log shows how far it is, also loaded again, can be stopped at each step, and is sent whole", {
  timeout: 300_000,
}, async () => {
  const cookie = await programme().member("Jonas Fell", "--role", "lead", "--site", "OJ");
  // before anything is read: adding somebody takes longer than reading does
  const other = await programme().member("Tomas Reed", "--role", "lead", "--site", "SL");
  const plain = await open(PHONE, false);
  const { page } = plain;
  page.setDefaultTimeout(60_000);
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
  const here = page.url();

  const elsewhere = await fetch(`${here.split("?")[0]}/stop`, {
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
  await page.goto("/send");
  expect(await page.getByRole("listitem").filter({ hasText: "back.csv" }).textContent()).toContain(
    "is here, not counted yet",
  );

  const scripted = await open(PHONE);
  const lead = scripted.page;
  lead.setDefaultTimeout(60_000);
  await lead.context().addCookies([cookie]);
  await lead.goto(`${here.split("?")[0]}?stopped=yes`);
  await lead.getByRole("link", { name: "Read it again" }).click();
  // by itself the page comes to what was understood, at once where reading is quick
  await lead.getByRole("heading", { name: "What we understood of back.csv" }).waitFor();
  await lead.getByRole("button", { name: "Send" }).click();
  await lead.getByText(/All of it is read; [1-9][\d,]* of 19,901 rows are counted\./).waitFor();
  await lead.getByRole("progressbar", { name: "How far it is" }).waitFor();
  await lead.reload();
  await lead.getByText(/All of it is read; [1-9][\d,]* of 19,901 rows are counted\./).waitFor();
  await lead.getByRole("button", { name: "Stop" }).click();
  await lead.getByRole("heading", { name: "Not done: back.csv" }).waitFor();
  expect(await lead.getByRole("main").textContent()).toMatch(/So far [1-9][\d,]* rows of it count/);
  const { violations } = await new AxeBuilder({ page: lead }).withTags(["wcag2a", "wcag2aa", "wcag22aa"]).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  expect(await lead.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  await lead.getByRole("button", { name: "Count the rest" }).click();
  await lead.waitForURL(/\/slip\//, { timeout: 120_000 });
  expect(await lead.getByRole("main").textContent()).toContain("19,900");

  await lead.goto(lead.url().replace("/slip/", "/files/"));
  await lead.getByText("Was this the wrong log? Undo this send").click();
  await lead.getByLabel("Why is it taken back?").fill("the wrong one");
  await lead.getByRole("button", { name: "Take it back" }).click();
  await lead.getByText(/^[1-9][\d,]* of 19,900 loads are taken back\.$/).waitFor();
  await lead.getByRole("button", { name: "Stop" }).click();
  await lead.getByRole("heading", { name: "Not done: back.csv" }).waitFor();
  expect(await lead.getByRole("main").textContent()).toMatch(/So far [1-9][\d,]* loads of 19,900 are taken back/);
  await lead.goto("/send");
  expect(await lead.getByRole("listitem").filter({ hasText: "back.csv" }).textContent()).toContain(
    "taken back in part, not wholly yet",
  );
  await lead.getByRole("link", { name: "back.csv" }).click();
  await lead.getByRole("link", { name: "How far that is" }).click();
  await lead.getByRole("button", { name: "Take the rest back" }).click();
  const done = lead.getByText("Nothing of it counts. Its rows stand below as they were read.");
  await done.waitFor({ timeout: 120_000 });
  expect(await programme().run("verify", "--json")).toContain('"differences":[]');
  expect([...plain.wrong, ...scripted.wrong]).toEqual([]);
});

test("several logs and the rows of a large one say how far they are", { timeout: 240_000 }, async () => {
  const cookie = await programme().member("Rosa Lind", "--role", "lead", "--site", "SL");
  const { page, wrong } = await open(PHONE);
  page.setDefaultTimeout(60_000);
  await page.context().addCookies([cookie]);
  await page.goto("/send");
  const files = [1, 2, 3, 4, 5, 6].map((from) => ({
    name: `year ${from}.csv`,
    mimeType: "text/csv",
    buffer: backFile(ROWS, 1, from),
  }));
  await page.getByLabel("The log").setInputFiles(files);
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("heading", { name: "What came" }).waitFor();
  await page
    .getByText(/It is being read\..* bytes are read/)
    .first()
    .waitFor();
  for (const { name } of files)
    await page.getByRole("listitem").filter({ hasText: name }).filter({ hasText: "19,900 ready to count" }).waitFor();
  await page.getByRole("link", { name: "year 1.csv" }).click();
  const way = page.url().split("?")[0];
  await page.goto(`${way}/rows?page=2`);
  await page.getByRole("heading", { name: "What would become of the rows of year 1.csv" }).waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  expect(wrong).toEqual([]);
});
