import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

type Page = Awaited<ReturnType<typeof open>>["page"];

async function asMember(name: string, ...words: readonly string[]) {
  const cookie = await programme().member(name, ...words);
  const opened = await open(PHONE, false);
  await opened.page.context().addCookies([cookie]);
  return opened;
}

async function lookAt(page: Page, name: string, text: string): Promise<void> {
  await page.goto("/send");
  await page.getByLabel("The log").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Look at it first" }).click();
}

test("a month sent again is shown as a difference; what it lacks goes only where it is ticked, and comes back when undone", async () => {
  const { page, wrong } = await asMember("Jonas Fell", "--role", "lead", "--site", "OJ");
  const whole = plainLog("2026-02", 3);
  await lookAt(page, "february.csv", whole);
  expect(await page.getByRole("heading", { name: "What it changes" }).count()).toBe(0);
  await page.getByRole("button", { name: "Send" }).click();

  // load 2 weighs something else now, loads 5 and 6 are not in it, and load 9 is new
  const lines = whole.split("\n");
  const corrected = [...lines.slice(0, 5), "15/02/2026,9,1,5.5,1.8,85,1.4"]
    .join("\n")
    .replace(",2,2,5.1,", ",2,2,5.6,");
  await lookAt(page, "corrected.csv", corrected);
  const difference = page.getByRole("region", { name: "What it changes" });
  expect(await difference.textContent()).toContain("1 new, 1 changed and 3 as they are here already");
  expect(await difference.textContent()).toContain("fresh in: 5.1 kg, now 5.6 kg");
  const lacking = difference.getByRole("group", { name: "2 loads of these days not in this log" });
  await lacking.getByLabel(/^load 5 of 15 Feb 2026/).check();

  await page.getByRole("button", { name: "Send" }).click(); // without a reason
  expect(await page.getByRole("alert").textContent()).toContain("Say why");
  expect(await lacking.getByLabel(/^load 5 of 15 Feb 2026/).isChecked()).toBe(true);
  await difference.getByLabel("Why does this log say something else?").selectOption("something stood there twice");
  await page.getByRole("button", { name: "Send" }).click();
  expect(page.url()).toContain("/slip/");
  expect(await page.getByRole("main").textContent()).toContain("1 withdrawn");

  await page.getByRole("link", { name: "Every row of the log with its fate" }).click();
  const deeds = page.getByRole("region", { name: "What became of it" });
  expect(await deeds.textContent()).toContain("something stood there twice");
  await page.getByText("Was this the wrong log? Undo this send").click();
  await page.getByLabel("Why is it taken back?").fill("load 5 was right after all");
  await page.getByRole("button", { name: "Take it back" }).click();
  expect(await deeds.textContent()).toContain("load 5 was right after all");

  await page.getByRole("button", { name: "Send it again" }).click();
  expect(await page.getByRole("region", { name: "What it changes" }).textContent()).toContain(
    "1 new, 1 changed and 3 as they are here already",
  );
  await page.goto("/files");
  const history = page.getByRole("region", { name: "Newest first" });
  expect(await history.getByRole("listitem").count()).toBe(3);
  expect(await history.textContent()).toContain("Taken back because: load 5 was right after all");
  expect(wrong).toEqual([]);
});

test("an officer takes in a log of several sites by a page, and accepts a closing that came late", async () => {
  const { page, wrong } = await asMember("Marit Osei", "--role", "officer");
  await page.goto("/files?site=(programme)");
  const text = "Date,Site,Batch no,Fresh (kg),Dried (kg)\n2026-03-02,Old Jetty,51,5,1.7\n2026-03-02,SL,7,6,2\n";
  await page.getByLabel("The log").setInputFiles({ name: "both.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("button", { name: "Send" }).click();
  expect(await page.getByRole("main").textContent()).toContain("several sites of the programme");

  await programme().run("facts", "SL", "due", "--from", "2026-01-01", "--day-of-month", "10");
  const lead = await asMember("Mira Sand", "--role", "lead", "--site", "SL");
  await lead.page.goto("/files");
  expect(await lead.page.getByRole("main").textContent()).toContain("A log of the programme");
  expect(await lead.page.getByRole("main").textContent()).not.toContain("both.csv");
  await lead.page.goto("/sites/SL/facts");
  await lead.page.getByLabel("First closed day").fill("2026-03-09");
  await lead.page.getByLabel("Last closed day").fill("2026-03-11");
  await lead.page.getByLabel("Why", { exact: true }).fill("no larvae");
  await lead.page.getByRole("button", { name: "Declare closed days" }).click();
  expect(await lead.page.getByRole("button", { name: "Accept late closing" }).count()).toBe(0);

  await page.goto("/sites/SL/facts");
  await page.getByRole("button", { name: "Accept late closing" }).click();
  expect(await page.getByRole("status").textContent()).toContain("these days are not owed");
  expect(await page.getByRole("heading", { name: "Closed days declared late" }).count()).toBe(0);
  expect([...wrong, ...lead.wrong]).toEqual([]);
});
