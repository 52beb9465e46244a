import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { PUZZLING_LOG, plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

async function asMember(name: string, javaScript: boolean, ...words: readonly string[]) {
  const cookie = await programme().member(name, ...words);
  const opened = await open(PHONE, javaScript);
  await opened.page.context().addCookies([cookie]);
  return opened;
}

const file = (name: string, text: string) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

test("a site lead sends a puzzling log from a phone without script, answers, and gets a slip that adds up", async () => {
  const { page, wrong } = await asMember("Jonas Fell", false, "--role", "lead", "--site", "OJ");
  await page.goto("/send");
  await page.getByLabel("The log").setInputFiles(file("february.csv", PUZZLING_LOG));
  await page.getByRole("button", { name: "Look at it first" }).click();
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toContain("february.csv");
  expect(await page.getByText("“Dried (kg)” is dried out, in kg").count()).toBe(1);

  await page.getByLabel("The day comes first: “3/2/2026” is 3 Feb 2026").check();
  await page.getByLabel(/^kg /).check();
  await page.getByRole("button", { name: "Look again with these answers" }).click();
  expect(await page.getByText("2 answers are in: which?").count()).toBe(1);

  await page.getByLabel(/The two weights were exchanged: 5\.2 kg fresh in/).check();
  const unreadable = page.getByRole("region", { name: "Row 5" });
  expect(await unreadable.textContent()).toContain("“abc” is not a weight that can be read");
  await unreadable.getByLabel("Or write what fresh in should be").fill("5.1 kg");
  await page.getByRole("button", { name: "Send as it is now" }).click();

  expect(page.url()).toContain("/slip/");
  expect(await rows(page)).toEqual([5, 0, 2, 7]);
  const code = await page.getByRole("heading", { level: 1 }).textContent();
  expect(code).toMatch(/^EV-[2-9A-HJ-NP-Z]{8}$/);
  const line = await page.getByText(new RegExp(`^${code} 2026-02:`)).textContent();
  expect(line?.length).toBeLessThanOrEqual(160); // one text message

  const printed = (await page.pdf({ format: "A4" })).toString("latin1");
  expect(printed.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);

  await page.goto("/send"); // the same bytes once more
  await page.getByLabel("The log").setInputFiles(file("again.csv", PUZZLING_LOG));
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("link", { name: "sending slip" }).click();
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe(code);
  expect(wrong).toEqual([]);
});

test("rows may be sent without an answer, and answered afterwards", async () => {
  const { page, wrong } = await asMember("Mira Sand", false, "--role", "lead", "--site", "SL");
  await page.goto("/send");
  await page
    .getByLabel("The log")
    .setInputFiles(file("march.csv", "Date,Fresh (kg),Dried (kg)\n2026-03-14,5,1.7\n2026-03-15,abc,1.6\n"));
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("button", { name: "Send as it is now" }).click();
  expect(await rows(page)).toEqual([1, 1, 1, 3]);
  await page.getByRole("link", { name: "Answer them" }).click();
  await page.getByLabel("This is not a batch: set the row aside").check();
  await page.getByRole("button", { name: "Count it again" }).click();
  expect(await rows(page)).toEqual([1, 0, 2, 3]);
  expect(wrong).toEqual([]);
});

test("an officer sends for a site with script and the keyboard alone, and reads the figures", async () => {
  const { page, wrong } = await asMember("Marit Osei", true, "--role", "officer");
  await page.goto("/send");
  await page.keyboard.press("Tab");
  expect(await focused(page)).toBe("To the page itself");
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("site");
  await page.keyboard.type("Salt Lane");
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("log");
  await page.locator("#log").setInputFiles(file("april.csv", plainLog("2026-04")));
  await pressTabTo(page, "Look at it first");
  await Promise.all([page.waitForURL(/\/send\/[\w-]+$/), page.keyboard.press("Enter")]);
  await page.getByRole("heading", { name: "Nothing needs you" }).waitFor();
  await pressTabTo(page, "Send");
  await Promise.all([page.waitForURL(/\/slip\//), page.keyboard.press("Enter")]);
  await pressTabTo(page, "The figures of April 2026");
  await Promise.all([page.waitForURL(/\/sites\/SL\/2026-04$/), page.keyboard.press("Enter")]);
  await page.getByRole("heading", { name: "Salt Lane, April 2026" }).waitFor();
  expect(wrong).toEqual([]);
});

test.each([
  { name: "picture.csv", text: "\u0089PNG\r\n\u001a\n0000", says: /picture|neither a workbook nor text/ },
  { name: "letter.csv", text: "Dear all,\nthe rain has come.\n", says: /No table was found/ },
])("$name cannot be read, which is said in a sentence with what to do", async ({ name, text, says }) => {
  const { page } = await asMember(`Reader of ${name}`, false, "--role", "officer");
  await page.goto("/send?site=OJ");
  await page.getByLabel("The log").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text, "latin1") });
  await page.getByRole("button", { name: "Look at it first" }).click();
  expect(await page.getByRole("main").textContent()).toMatch(says);
});

test("no file, no site: said at the top with links, and beside the field", async () => {
  const { page } = await asMember("Ines Harrow", false, "--role", "officer");
  await page.goto("/send");
  for (const field of ["#site", "#log"]) await page.locator(field).waitFor();
  const answer = await page.request.post("/send/arrive", {
    multipart: { site: "" },
    headers: { origin: programme().address },
    maxRedirects: 0,
  });
  await page.goto(answer.headers().location ?? "");
  expect(await page.getByRole("alert").getByRole("link").getAttribute("href")).toBe("#site");
  expect(await page.locator("#site").getAttribute("aria-invalid")).toBe("true");
  expect(await page.locator("#site-wrong").textContent()).toContain("Choose the site");
});

type Page = Awaited<ReturnType<typeof open>>["page"];

/** Counted, held, set aside, and the rows of the log, as the page shows them. */
async function rows(page: Page): Promise<number[]> {
  const cells = await page.getByRole("table").first().locator("td").allTextContents();
  const counts = cells.map(Number);
  expect((counts[0] ?? 0) + (counts[1] ?? 0) + (counts[2] ?? 0)).toBe(counts[3]);
  return counts;
}

function focused(page: Page): Promise<string | null | undefined> {
  return page.evaluate(() =>
    document.activeElement instanceof HTMLElement ? document.activeElement.textContent : undefined,
  );
}

async function pressTabTo(page: Page, text: string): Promise<void> {
  for (let times = 0; times < 60; times++) {
    if ((await focused(page)) === text) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`the keyboard does not reach “${text}”`);
}
