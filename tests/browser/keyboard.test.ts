import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);
type Page = Awaited<ReturnType<typeof open>>["page"];

/** Dates that can be read both ways, no units, three dried weights in grams, three times that are no times. */
const FEBRUARY = [
  "Date;Lot;Wet;Dry;Minutes",
  ...Array.from({ length: 10 }, (_, at) => {
    const dried = at < 3 ? `17${at}1` : `1,7${at}`;
    return `${at + 1}/2/2026;${at + 1};5,2${at};${dried};${at > 6 ? "two pots" : 80 + at}`;
  }),
].join("\n");
const LOADS = "Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes\n2026-04-01,3,1,10,,80\n2026-04-01,4,1,11,,81\n";
const WEIGHED = "Date,Batch no,Dried (kg)\n2026-04-02,3+4,7\n";
/** Words of no language that is known here, the weights under one group. */
const LOST = "Old Jetty\nXqa,Xqb,,Xqd\n,wuz (kg),vuz (kg),min\n2026-05-03,5.3,1.63,83\n2026-05-04,5.4,1.64,84\n";

interface Focused {
  readonly says: string;
  readonly type: string;
  readonly name: string;
  readonly isSeen: boolean;
}

/** What has the focus, and whether a person can see it, with its ring. */
const focused = (page: Page): Promise<Focused> =>
  page.evaluate(() => {
    const one = document.activeElement;
    if (!(one instanceof HTMLElement)) return { says: "", type: "", name: "", isSeen: false };
    const { top, bottom, height } = one.getBoundingClientRect();
    const { outlineStyle, outlineWidth } = getComputedStyle(one);
    const isIn = (top >= -1 && bottom <= innerHeight + 1) || height > innerHeight;
    const field = one instanceof HTMLInputElement || one instanceof HTMLSelectElement ? one : null;
    const label = field?.labels?.[0]?.textContent ?? one.textContent ?? "";
    return {
      says: label.trim().slice(0, 120),
      type: field?.type ?? one.tagName,
      name: field?.name ?? "",
      isSeen: isIn && outlineStyle !== "none" && outlineWidth !== "0px",
    };
  });

/** Goes on by the tabulator until something that is meant has the focus; everything on the way must be seen. */
async function tabTo(page: Page, isMeant: (one: Focused) => boolean): Promise<Focused> {
  const passed: string[] = [];
  for (let at = 0; at < 200; at++) {
    await page.keyboard.press("Tab");
    const one = await focused(page);
    if (one.type !== "BODY") expect(one.isSeen, `${one.says || one.name} is out of sight`).toBe(true);
    if (isMeant(one)) return one;
    passed.push(one.says);
  }
  throw new Error(`it was not reached after ${passed.slice(-20).join(" | ")}`);
}

const says = (words: string) => (one: Focused) => one.says.startsWith(words);
const button = (words: string) => (one: Focused) => one.type === "BUTTON" && one.says.startsWith(words);

/** Presses Enter and waits for the page that it leads to. */
async function enter(page: Page): Promise<void> {
  await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
}

async function bring(page: Page, name: string, text: string): Promise<void> {
  await page.goto("/send");
  await tabTo(page, ({ type }) => type === "file");
  // what stands in the window of the system in which a file is chosen is no page of ours
  await page.locator("#log").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
  await tabTo(page, button("Look at it first"));
  await enter(page);
}

/** Chooses an answer of the next question by the arrow keys. */
async function answer(page: Page, words: string): Promise<void> {
  let one = await tabTo(page, ({ type }) => type === "radio");
  for (let at = 0; at < 20 && !one.says.startsWith(words); at++) {
    await page.keyboard.press("ArrowDown");
    one = await focused(page);
  }
  expect(one.says).toContain(words);
}

async function isSound(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag22aa"]).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
}

test("all of sending goes by keyboard on a small screen: questions, a fault, a kind, a difference, undoing, history", {
  timeout: 180_000,
}, async () => {
  const { page, wrong } = await open(PHONE);
  await page.context().addCookies([await programme().member("Jonas Fell", "--role", "lead", "--site", "OJ")]);
  await bring(page, "february.csv", FEBRUARY);
  await tabTo(page, says("what needs you"));
  await page.keyboard.press("Enter");
  for (const words of ["kg", "kg", "The day comes first"]) await answer(page, words);
  await isSound(page);
  await tabTo(page, button("Look again with these answers"));
  await enter(page);
  await answer(page, "Yes, read the weights");
  await answer(page, "All of them: they stand as written");
  await isSound(page);
  await tabTo(page, button("Look again with these answers"));
  await enter(page);
  await tabTo(page, button("Send"));
  await enter(page);
  await page
    .getByRole("heading", { name: /^EV-/ })
    .or(page.getByText(/^EV-\w{8}$/))
    .first()
    .waitFor();

  const march = plainLog("2026-03", 3);
  await bring(page, "march.csv", march);
  await tabTo(page, button("Send"));
  await enter(page);
  await bring(
    page,
    "corrected.csv",
    [...march.split("\n").slice(0, 5), "15/03/2026,9,1,5.5,1.8,85,1.4"].join("\n").replace(",2,2,5.1,", ",2,2,5.6,"),
  );
  await tabTo(page, ({ type, says: words }) => type === "checkbox" && words.startsWith("load 5 of 15 Mar 2026"));
  await page.keyboard.press("Space");
  await tabTo(page, says("Why does this log say something else"));
  await page.keyboard.type("something stood");
  await tabTo(page, button("Send"));
  await enter(page);
  expect(await page.getByRole("main").textContent()).toContain("1 withdrawn");
  await tabTo(page, says("Was this the wrong log"));
  await page.keyboard.press("Enter");
  await tabTo(page, says("Why is it taken back"));
  await page.keyboard.type("the right one comes");
  await tabTo(page, button("Take it back"));
  await enter(page);
  const deeds = page.getByRole("region", { name: "What became of it" });
  expect(await deeds.textContent()).toContain("the right one comes");
  await isSound(page);
  await tabTo(page, says("Everything sent"));
  await enter(page);
  expect(await page.getByRole("main").textContent()).toContain("corrected.csv");
  expect(wrong).toEqual([]);
});

test("a dried weight is joined to its loads, and headings in two rows are pointed at, by keyboard", {
  timeout: 180_000,
}, async () => {
  const { page, wrong } = await open(PHONE);
  await page.context().addCookies([await programme().member("Mira Sand", "--role", "lead", "--site", "OJ")]);
  await bring(page, "loads.csv", LOADS);
  await tabTo(page, button("Send"));
  await enter(page);
  await bring(page, "weighed.csv", WEIGHED);
  await tabTo(page, says("what needs you"));
  await page.keyboard.press("Enter");
  await tabTo(page, says("“What it changes”"));
  await page.keyboard.press("Enter");
  await answer(
    page,
    "It is the dried weight of loads 3 and 4 of 1 Apr 2026 together: 21 kg fresh, which makes a dry yield of 33 %",
  );
  await isSound(page);
  await tabTo(page, button("Look again"));
  await enter(page);
  expect(await page.getByRole("region", { name: "What it changes" }).textContent()).toContain(
    "It takes the place of 2 loads that came one by one: 3 and 4.",
  );
  await tabTo(page, button("Send"));
  await enter(page);
  expect(await page.getByRole("main").textContent()).toContain("7.0 kg");

  await bring(page, "lost.csv", LOST);
  await answer(page, "Row 3");
  await tabTo(page, says("Do they stand in several rows"));
  await page.keyboard.type("from row 2");
  await isSound(page);
  await tabTo(page, button("Look again"));
  await enter(page);
  expect(await page.getByRole("main").textContent()).toContain("“Xqb wuz (kg)”");
  expect(wrong).toEqual([]);
});
