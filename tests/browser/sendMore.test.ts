import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { DESK, PHONE, withBrowser } from "../setup/browser";
import { withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

async function asMember(name: string, javaScript: boolean, ...words: readonly string[]) {
  const cookie = await programme().member(name, ...words);
  const opened = await open(PHONE, javaScript);
  await opened.page.context().addCookies([cookie]);
  return { ...opened, cookie };
}
type Page = Awaited<ReturnType<typeof open>>["page"];

const log = (name: string, text: string) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
const ROW = "Date,Fresh (kg),Dried (kg),Minutes\n2026-03-14,5,1.7,80\n";

/** A picture of one point, as PNG. */
const PICTURE = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=",
  "base64",
);

/** Looks with script, which the examination itself needs, at what this page shows. */
async function suitsEverybody(seen: Page): Promise<void> {
  const { page, wrong } = await open(PHONE);
  await page.context().addCookies(await seen.context().cookies());
  await page.goto(seen.url());
  await page.getByRole("heading", { level: 1 }).waitFor();
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag22aa"]).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  expect(wrong).toEqual([]);
}

test("several logs and pasted lines come at once without script; one that is empty and one that is no table stop no other", async () => {
  const { page, wrong } = await asMember("Jonas Fell", false, "--role", "lead", "--site", "OJ");
  await page.goto("/send");
  await page
    .getByLabel("The log")
    .setInputFiles([log("march.csv", ROW), log("empty.csv", ""), log("broken.csv", '{"fresh":5}')]);
  await page
    .getByLabel("Or paste lines, as from a message")
    .fill("Date;Fresh (kg);Dried (kg);Minutes\n2026-03-20;5,2;1,7;80\n2026-03-21;5,1;1,65;85\n");
  await page.getByRole("button", { name: "Look at it first" }).click();
  expect(await page.getByRole("alert").textContent()).toContain("empty.csv is empty.");
  const list = page.getByRole("main").locator("ol > li");
  expect(await list.allTextContents()).toEqual([
    expect.stringMatching(/^march\.csv.*2 rows: 1 ready to count, 1 no batch\.$/),
    expect.stringMatching(/^broken\.csv.*No table was found/),
    expect.stringMatching(/^pasted\.txt.*3 rows: 2 ready to count, 1 no batch\.$/),
  ]);
  await page.getByRole("link", { name: "pasted.txt" }).click();
  await page.getByRole("button", { name: "Send", exact: true }).click();
  expect(page.url()).toContain("/slip/");
  await page.goto("/send");
  expect(await page.getByRole("listitem").filter({ hasText: "pasted.txt" }).textContent()).toMatch(/counted/);
  expect(wrong).toEqual([]);
});

test("pasted lines alone are kept as the bytes that were pasted", async () => {
  const { page, cookie } = await asMember("Mira Sand", true, "--role", "lead", "--site", "SL");
  await page.goto("/send");
  await page.getByLabel("Or paste lines, as from a message").fill(ROW);
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("heading", { name: "What we understood of pasted.txt" }).waitFor();
  const original = await fetch(page.url().replace(/\/send\/([\w-]+).*/, "/files/$1/original"), {
    headers: { cookie: `${cookie.name}=${cookie.value}` },
  });
  expect(await original.text()).toBe(ROW.replaceAll("\n", "\r\n")); // forms end lines so (HTML standard, 4.10.21.8)
});

test("a picture waits to be typed; what is typed beside it is a log whose rows lead back to its lines", async () => {
  const { page, wrong, cookie } = await asMember("Noor Vale", false, "--role", "lead", "--site", "OJ");
  await page.goto("/send");
  await page.getByLabel("The log").setInputFiles({ name: "IMG_1.JPG", mimeType: "image/jpeg", buffer: PICTURE });
  await page.getByRole("button", { name: "Look at it first" }).click();
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("Waiting to be typed: IMG_1.JPG");
  const picture = page.url();
  const width = () => page.getByRole("img").evaluate((img) => (img instanceof HTMLImageElement ? img.naturalWidth : 0));
  await expect.poll(width).toBe(1);
  await suitsEverybody(page);
  await page.goto("/send");
  expect(await page.getByRole("listitem").filter({ hasText: "IMG_1.JPG" }).textContent()).toContain(
    "waiting to be typed",
  );

  await page.goto(picture);
  await page.getByRole("button", { name: "Look at what was typed" }).click();
  expect(await page.getByRole("alert").textContent()).toContain("Nothing was typed yet.");
  const put = async (line: number, cells: Record<string, string>) => {
    const lines = page.getByRole("group", { name: `Line ${line}`, exact: true });
    for (const [label, text] of Object.entries(cells)) await lines.getByLabel(label).fill(text);
  };
  await put(1, { Date: "2026-02-16", Batch: "1", Fresh: "5.2", Dried: "1.7", Minutes: "80", Fuel: "1.4" });
  await page.getByRole("button", { name: "More lines" }).click();
  await put(30, {
    Date: "2026-02-17",
    Batch: "2",
    Fresh: "5.1",
    Dried: "1.65",
    Minutes: "85",
    Remarks: 'wind, "strong"',
  });
  await page.getByRole("button", { name: "Look at what was typed" }).click();
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toMatch(/typed from EV-[2-9A-Z]{8}\.csv$/);
  await page.getByRole("button", { name: "Send", exact: true }).click();
  const slip = page.url();
  await page.getByRole("link", { name: "Every row of the log with its fate" }).click();
  expect(await page.getByRole("region", { name: "Rows of the log" }).getByRole("rowheader").allTextContents()).toEqual([
    "1",
    expect.stringMatching(/^2 line 1 of EV-/),
    expect.stringMatching(/^3 line 30 of EV-/),
  ]);
  await page.getByRole("link", { name: /^line 30 of EV-/ }).click();
  await expect.poll(width).toBe(1);
  await page.getByRole("link", { name: /, row by row$/ }).click();
  expect(page.url()).toBe(slip.replace("/slip/", "/files/"));

  const answer = await fetch(picture.replace(/\/send\/(.*)/, "/files/$1/picture"), {
    headers: { cookie: `${cookie.name}=${cookie.value}` },
  });
  expect(answer.headers.get("content-type")).toBe("image/png"); // by content, whatever its name says
  expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
  expect(answer.headers.get("content-security-policy")).toContain("sandbox");
  const none = await fetch(slip.replace(/\/slip\/(.*)/, "/files/$1/picture"), {
    headers: { cookie: `${cookie.name}=${cookie.value}` },
  });
  expect(none.status).toBe(404); // what is no picture is never shown in place
  const other = await programme().member("Tomas Reed", "--role", "lead", "--site", "SL");
  const elsewhere = await fetch(picture.replace(/\/send\/(.*)/, "/files/$1/picture"), {
    headers: { cookie: `${other.name}=${other.value}` },
  });
  expect(elsewhere.status).toBe(404); // of another site
  expect(await programme().run("verify", "--json")).toContain('"differences":[]');
  expect(wrong).toEqual([]);
});

test("a PDF is kept, waits to be typed, and is handed over as a file, never opened in a page", async () => {
  const { page, cookie } = await asMember("Ines Harrow", false, "--role", "officer");
  await page.goto("/send?site=SL");
  const pdf = { name: "sheet.pdf", mimeType: "application/pdf", buffer: Buffer.from("%PDF-1.4\n%%EOF\n") };
  await page.getByLabel("The log").setInputFiles(pdf);
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByRole("link", { name: "Open the PDF" }).waitFor();
  const answer = await fetch(page.url().replace(/\/send\/(.*)/, "/files/$1/picture"), {
    headers: { cookie: `${cookie.name}=${cookie.value}` },
  });
  expect(answer.headers.get("content-disposition")).toMatch(/^attachment; filename="EV-\w{8}\.pdf"$/);
});

test("what an officer brings says when it was sent as the sender says, also of what is typed from it", async () => {
  const { page } = await asMember("Marit Osei", false, "--role", "officer");
  await page.goto("/send?site=SL");
  const picture = Buffer.concat([PICTURE, Buffer.from("another")]);
  await page.getByLabel("The log").setInputFiles({ name: "photo.png", mimeType: "image/png", buffer: picture });
  await page.getByLabel("Sent on (may be left empty)").fill("2026-03-02");
  await page.getByRole("button", { name: "Look at it first" }).click();
  await page.getByLabel("Date").first().fill("2026-02-16");
  await page.getByLabel("Fresh").first().fill("5.2");
  await page.getByRole("button", { name: "Look at what was typed" }).click();
  expect(await page.getByRole("main").textContent()).toContain(
    "It came by message, sent on 2 Mar 2026 as the sender says.",
  );
});

test("the blank sheets suit a phone and print on one page each, in every language", async () => {
  const { page, wrong } = await asMember("Lena Ford", false, "--role", "lead", "--site", "OJ");
  await page.goto("/send");
  await page.getByRole("link", { name: "Blank sheets to print" }).click();
  await suitsEverybody(page);
  const sheets = await page.getByRole("main").getByRole("listitem").getByRole("link").all();
  const ways = await Promise.all(sheets.map((sheet) => sheet.getAttribute("href")));
  expect(ways).toHaveLength(12);
  for (const way of ways) {
    await page.goto(way ?? "");
    expect(await page.getByText("Old Jetty (OJ)").count()).toBe(1);
    const printed = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(printed.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  }
  await suitsEverybody(page);
  await page.setViewportSize(DESK);
  expect((await page.goto("/sheets/de/daily"))?.status()).toBe(404);
  expect(wrong.filter((complaint) => !complaint.includes("status of 404"))).toEqual([]);
});

test("an officer prints a sheet with the name of a site", async () => {
  const { page } = await asMember("Hana Brook", false, "--role", "officer");
  await page.goto("/sheets");
  await page.getByLabel("Site whose name is printed").selectOption("SL");
  await page.getByRole("button", { name: "Put it on the sheets" }).click();
  await page.getByRole("link", { name: "Feuille journalière" }).click();
  expect(await page.getByText("Salt Lane (SL)").count()).toBe(1);
  await page.goto("/sheets");
  await suitsEverybody(page);
});
