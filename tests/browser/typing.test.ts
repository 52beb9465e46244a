import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { bring, button, enter, focused, isSound, says, tabTo } from "./keys";
import { withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

/** A picture of one point, as PNG; with something behind it, it is another file. */
const picture = (behind: string) =>
  Buffer.concat([
    Buffer.from(
      "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=",
      "base64",
    ),
    Buffer.from(behind),
  ]);
const LINES = {
  1: { day: "2026-02-16", number: "1", pan: "1", fresh: "5.2", dried: "1.7", minutes: "80", fuel: "1.4" },
  2: { day: "2026-02-17", number: "2", pan: "2", fresh: "5.1", dried: "1.65", minutes: "85", fuel: "1.3" },
};

async function signedIn(name: string, javaScript: boolean) {
  const opened = await open(PHONE, javaScript);
  await opened.page.context().addCookies([await programme().member(name, "--role", "lead", "--site", "OJ")]);
  return opened;
}
type Page = Awaited<ReturnType<typeof signedIn>>["page"];

/** Types a line from the cell on that has the focus, by the tabulator. */
async function typeLine(page: Page, line: 1 | 2): Promise<void> {
  for (const [column, text] of Object.entries(LINES[line])) {
    const cell = `${line}.${column}`;
    if ((await focused(page)).name !== cell) await tabTo(page, ({ name }) => name === cell);
    await page.keyboard.type(text);
  }
}

const typed = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLInputElement>("li input")].flatMap(({ name, value }) =>
      value === "" ? [] : [`${name} ${value}`],
    ),
  );
const ALL = Object.entries(LINES).flatMap(([line, cells]) =>
  Object.entries(cells).map(([column, text]) => `${line}.${column} ${text}`),
);

test("a picture is typed, looked at, sent and found again by keyboard; Enter goes to the cell below", {
  timeout: 120_000,
}, async () => {
  const { page, wrong } = await signedIn("Jonas Fell", true);
  await bring(page, "IMG_1.png", picture("a"), "image/png");
  await tabTo(page, ({ name }) => name === "1.day");
  await typeLine(page, 1);
  await page.keyboard.press("Enter");
  expect(await focused(page)).toMatchObject({ name: "2.fuel", isSeen: true });
  for (let at = 0; at < 6; at++) await page.keyboard.press("Shift+Tab");
  expect((await focused(page)).name).toBe("2.day");
  await typeLine(page, 2);
  for (let line = 3; line <= 15; line++) {
    await page.keyboard.press("Enter");
    expect(await focused(page)).toMatchObject({ name: `${line}.fuel`, isSeen: true });
  }
  await enter(page); // the last line: more of them
  await expect.poll(() => focused(page)).toMatchObject({ name: "16.fuel", isSeen: true });
  expect(await typed(page)).toEqual(ALL);
  await isSound(page);
  await tabTo(page, button("Look at what was typed"));
  await enter(page);
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toMatch(/typed from EV-[2-9A-Z]{8}\.csv$/);
  await tabTo(page, button("Send"));
  await enter(page);
  await tabTo(page, says("Every row of the log with its fate"));
  await enter(page);
  await tabTo(page, says("line 2 of EV-"));
  await enter(page);
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe("Picture: IMG_1.png");
  expect(wrong).toEqual([]);
});

test("without script Enter in a cell keeps all that was typed and stands in the next line; no log is made of it", {
  timeout: 120_000,
}, async () => {
  const { page } = await signedIn("Mira Sand", false);
  await page.goto("/send");
  await page.getByLabel("The log").setInputFiles({ name: "IMG_2.png", mimeType: "image/png", buffer: picture("b") });
  await page.getByRole("button", { name: "Look at it first" }).click();
  for (const [line, cells] of Object.entries(LINES)) {
    for (const [column, text] of Object.entries(cells)) await page.locator(`[name="${line}.${column}"]`).fill(text);
    await page.keyboard.press("Enter");
    await page.waitForURL(`**/send/*#${Number(line) + 1}.day`);
    expect((await page.locator(":focus").getAttribute("name")) ?? "").toBe(`${Number(line) + 1}.day`);
  }
  for (const said of ALL) {
    const [cell = "", text = ""] = said.split(" ");
    expect(await page.locator(`[name="${cell}"]`).inputValue()).toBe(text);
  }
  await page.locator('[name="15.remarks"]').fill("wind");
  await page.keyboard.press("Enter");
  await page.waitForURL("**/send/*#16.day");
  expect(await page.locator('[name="15.remarks"]').inputValue()).toBe("wind");
  await page.goto("/send");
  const sent = await page.getByRole("listitem").filter({ hasText: "waiting to be typed" }).allTextContents();
  expect(sent).toEqual([expect.stringContaining("IMG_2.png")]);
});
