import { writeFileSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import { beforeAll, expect, test } from "vitest";
import { daysBetween, daysOfMonth, plusMonths, weekday } from "#server/terms/days";
import { DESK, PHONE, withBrowser } from "../setup/browser";
import { freshFolder } from "../setup/program";
import { seeded } from "../statistics/seeded";
import { withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);
const cookies = new Map<string, Awaited<ReturnType<ReturnType<typeof programme>["member"]>>>();
let told: { readonly id: string }[] = [];

/** The four months before this one: what is told of them still stands. */
const LAST = plusMonths(new Date().toISOString().slice(0, 7), -1);
const MONTHS = [3, 2, 1, 0].map((back) => plusMonths(LAST, -back));
/** From this day on a bowl is weighed with the dried larvae. */
const BOWL_FROM = `${LAST}-08`;

/** All logs came and were watched by then. */
const KNOWN = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);

beforeAll(async () => {
  const { member, run } = programme();
  cookies.set("officer", await member("Marit Osei", "--role", "officer"));
  cookies.set("auditor", await member("Ada Quill", "--role", "auditor"));
  cookies.set("lead", await member("Jonas Fell", "--role", "lead", "--site", "OJ"));
  cookies.set("other", await member("Ilse Quint", "--role", "lead", "--site", "SL"));
  const folder = freshFolder();
  for (const [at, month] of MONTHS.entries()) {
    const path = join(folder.path, `${month}.csv`);
    writeFileSync(path, bowlLog(month, at + 1));
    await run("send", path, "--site", "OJ", "--json");
  }
  folder.remove();
  told = JSON.parse(await run("signals", "--site", "OJ", "--json")) as typeof told;
});

/** Two loads a working day whose yield steps up by a seventh on a day; nothing else changes. */
function bowlLog(month: string, seed: number): string {
  const { normal } = seeded(seed);
  const { from, to } = daysOfMonth(month);
  const rows = daysBetween(from, to)
    .filter((day) => weekday(day) !== 7)
    .flatMap((day) =>
      [1, 2].map((pan) => {
        const fresh = 5 + 0.1 * normal();
        const dried = fresh * 0.31 * (day >= BOWL_FROM ? 1.15 : 1) * (1 + 0.02 * normal());
        return `${day},${pan},${pan},${fresh.toFixed(2)},${dried.toFixed(3)},${80 + Math.round(2 * normal())}`;
      }),
    );
  return ["Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes", ...rows].join("\n");
}

async function opened(who: string, path: string, size = DESK, javaScript = true) {
  const { page, wrong } = await open(size, javaScript);
  const cookie = cookies.get(who);
  if (cookie !== undefined) await page.context().addCookies([cookie]);
  await page.goto(path);
  await page.getByRole("heading", { level: 1 }).waitFor();
  return { page, wrong };
}

/** The signal that tells of the bowl: the first one of dry yield. */
function bowl(): string {
  return told.find(({ id }) => id.includes(".dry-yield.") && id.endsWith(".up"))?.id ?? "none";
}

/** The month in which it was told. */
function toldMonth(): string {
  return bowl().split(".")[3]?.slice(0, 7) ?? "none";
}

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const PAGES: readonly [string, () => string][] = [
  ["officer", () => "/signals"],
  ["officer", () => `/signals/${bowl()}`],
  ["lead", () => `/signals/${bowl()}`],
  ["auditor", () => "/signals/series/OJ/sand-pan/dry-yield"],
  ["officer", () => "/signals/accepted"],
  ["auditor", () => `/signals/accepted?known=${KNOWN}`],
  ["auditor", () => `/signals/series/OJ/sand-pan/dry-yield?known=${KNOWN}`],
  ["officer", () => `/signals/told/${toldMonth()}`],
  ["other", () => "/signals"],
];

test.each(PAGES)(
  "what %s is shown of signals suits phone and desk, light and dark, and everybody",
  async (who, path) => {
    for (const size of [PHONE, DESK]) {
      const { page, wrong } = await opened(who, path(), size);
      await page.evaluate(() => {
        for (const closed of document.querySelectorAll("main details")) closed.setAttribute("open", "");
      });
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        const axe = new AxeBuilder({ page });
        const looked = colorScheme === "light" ? axe.withTags(RULES) : axe.withRules(["color-contrast"]);
        const { violations } = await looked.analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      }
      expect(wrong).toEqual([]);
    }
  },
);

test("the inbox says what changed, since when, what it comes to, and what to ask first; each leads to its signal", async () => {
  const { page } = await opened("officer", "/signals", PHONE, false);
  const story = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "Old Jetty" }) });
  expect(await story.textContent()).toMatch(/Dry yield up 1\d % \(\d+ to \d+\)/);
  expect(await story.textContent()).toMatch(/kg \([\d.]+ to [\d.]+\) more dried a month/);
  expect(await story.textContent()).toContain("Is the bowl, or sand, weighed with the dried larvae?");
  expect(await page.locator("main").textContent()).not.toMatch(/\b(stream|segment|EWMA|CUSUM)\b/i);
  await story.getByRole("link", { name: /^Dry yield up/ }).click();
  await page.getByRole("heading", { level: 1, name: /^Old Jetty: dry yield up/ }).waitFor();
});

test("from a signal it is two clicks to the row of a day, without script", async () => {
  const { page } = await opened("officer", `/signals/${bowl()}`, DESK, false);
  await page
    .getByRole("link", { name: /^batches of / })
    .first()
    .click();
  await page.getByRole("heading", { level: 1, name: /^Batches of Old Jetty, \d/ }).waitFor();
  expect(await page.getByRole("table").getByRole("row").count()).toBe(3);
  await page
    .getByRole("link", { name: /^row \d+$/ })
    .first()
    .click();
  await page.getByRole("heading", { level: 1, name: new RegExp(`^Rows of ${LAST}`) }).waitFor();
});

test("the chart says in its table what it shows", async () => {
  const { page } = await opened("auditor", `/signals/${bowl()}`, DESK, false);
  await page.getByRole("img", { name: /^Dry yield, kg dried per 100 kg fresh/ }).waitFor();
  await page.getByText("Show as a table").click();
  const table = page.getByRole("table", { name: /^Dry yield, kg dried/ });
  expect(await table.getByText("a signal was told").count()).toBeGreaterThan(0);
  expect(await table.getByText("learning").count()).toBe(12);
});

test("who may not answer is told who does, and another site's signal does not exist for a lead", async () => {
  const { page } = await opened("auditor", `/signals/${bowl()}`);
  expect(await page.getByRole("button", { name: "Answer it" }).count()).toBe(0);
  await page.getByText("A programme officer answers here.").waitFor();
  const lead = await opened("lead", `/signals/${bowl()}`);
  await lead.page.getByText("Tell your programme officer what you know").waitFor();
  const other = await opened("other", `/signals/${bowl()}`);
  await other.page.getByRole("heading", { level: 1, name: "There is nothing here" }).waitFor();
  const accepted = await opened("lead", "/signals/accepted");
  await accepted.page.getByRole("heading", { level: 1, name: "There is nothing here" }).waitFor();
});

test("a month's count leads to the signals that it counts, also as known on a day", async () => {
  const { page } = await opened("officer", `/signals/accepted?known=${KNOWN}`, PHONE, false);
  await page.getByText("As known on").first().waitFor();
  const counts = page.getByRole("list", { name: "Signals told, by month" }).getByRole("link");
  const last = counts.last();
  const count = Number((await last.textContent())?.split(": ")[1]);
  expect(count).toBeGreaterThan(0);
  await last.click();
  await page.getByRole("heading", { level: 1, name: new RegExp(`^${count} signals? told in `) }).waitFor();
  const counted = page.getByRole("table").first().getByRole("row");
  expect(await counted.count()).toBe(count + 1);
  expect(page.url()).toContain(`known=${KNOWN}`);
  await page.getByRole("link", { name: "Show what is known today" }).waitFor();
});

test("a month of false alarms is chosen in either way, and what is no number is asked about", async () => {
  const { page } = await opened("officer", "/signals/accepted", PHONE, false);
  await page.getByText("Choose another number").click();
  await page.getByLabel("False alarms a month, over the whole programme").fill("many");
  await page.getByRole("button", { name: "Accept so many" }).click();
  await page.getByRole("link", { name: /“many” is none/ }).waitFor();
  expect(await page.getByLabel("False alarms a month, over the whole programme").inputValue()).toBe("many");
  await page.getByLabel("False alarms a month, over the whole programme").fill("0,5");
  await page.getByRole("button", { name: "Accept so many" }).click();
  await page.getByText("about 0.5 false alarms a month is chance").waitFor();
  await page.getByText("Choose another number").click();
  await page.getByLabel(/^In 95 % of months at most one/).check();
  await page.getByRole("button", { name: "Accept so many" }).click();
  await page.getByText("Limits are set so that in 95 % of months at most one alarm is chance").waitFor();
});

test("an officer answers by keyboard, with what was typed kept when something is missing", async () => {
  const { page, wrong } = await opened("officer", `/signals/${bowl()}`);
  await page.getByLabel("Why").fill("The bowl was left on the scale");
  await page.getByRole("button", { name: "Answer it" }).press("Enter");
  await page.getByRole("link", { name: "Choose one of the four answers." }).waitFor();
  expect(await page.getByLabel("Why").inputValue()).toBe("The bowl was left on the scale");
  const days = page.getByLabel("Days whose record is wrong");
  expect(await days.isVisible()).toBe(false);
  await page.getByRole("radio", { name: /^The record is wrong/ }).press("Space");
  const others = page.getByRole("group", { name: "Does the answer hold for these as well?" }).getByRole("checkbox");
  for (const one of await others.all()) {
    expect(await one.isChecked()).toBe(false); // what else it holds for is for a person to say
    await one.press("Space");
  }
  await days.fill("8 March");
  await page.getByRole("button", { name: "Answer it" }).press("Enter");
  await page.getByRole("link", { name: /“8” is no day/ }).waitFor();
  await days.fill(`${BOWL_FROM} to ${daysOfMonth(LAST).to}`);
  await page.getByRole("button", { name: "Answer it" }).press("Enter");
  const answers = page.getByRole("list", { name: "Answers, the one that counts first" });
  await answers.getByText("The bowl was left on the scale").waitFor();
  expect(await answers.textContent()).toMatch(/The record is wrong:.*Marit Osei/s);
  await page.goto("/signals");
  const over = page.getByRole("row").filter({ hasText: "The record is wrong" });
  await over.first().waitFor();
  expect(wrong).toEqual([]);
});
