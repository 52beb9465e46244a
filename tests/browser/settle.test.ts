import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

async function asMember(name: string, javaScript: boolean, ...words: readonly string[]) {
  const cookie = await programme().member(name, ...words);
  const opened = await open(PHONE, javaScript);
  await opened.page.context().addCookies([cookie]);
  return opened;
}
type Page = Awaited<ReturnType<typeof open>>["page"];

/** Dates that can be read both ways, no units, three dried weights in grams, three times that are no times. */
const FEBRUARY = [
  "Date;Lot;Wet;Dry;Minutes",
  ...Array.from({ length: 10 }, (_, at) => {
    const dried = at < 3 ? `17${at}1` : `1,7${at}`;
    return `${at + 1}/2/2026;${at + 1};5,2${at};${dried};${at > 6 ? "two pots" : 80 + at}`;
  }),
].join("\n");

/** The same site a month later: a title above, the weights in another order, one column more. */
const MARCH = [
  "Old Jetty, March",
  "Date;Lot;Pan;Dry;Wet;Minutes",
  ...Array.from({ length: 10 }, (_, at) => `${at + 1}/3/2026;${at + 1};1;1,7${at};5,2${at};${80 + at}`),
].join("\n");

async function bring(page: Page, name: string, text: string): Promise<void> {
  await page.goto("/send");
  await page.locator("#log").setInputFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Look at it first" }).click();
}

test("a lead settles a log from a phone without script: consequences, a fault, rows of a kind; next month it is remembered", async () => {
  const { page, wrong } = await asMember("Jonas Fell", false, "--role", "lead", "--site", "OJ");
  await bring(page, "february.csv", FEBRUARY);
  const fresh = page.getByRole("group", { name: /^Column C, “Wet”/ });
  expect(await fresh.textContent()).toContain("kg Once the rest is answered too, 4 rows would count");
  await fresh.getByLabel(/^kg/).check();
  await page
    .getByRole("group", { name: /^Column D, “Dry”/ })
    .getByLabel(/^kg/)
    .check();
  await page.getByLabel(/^The day comes first/).check();
  await page.getByRole("button", { name: "Look again with these answers" }).click();

  const fault = page.getByRole("group", { name: /Were grams and kilograms mixed\?/ });
  expect(await fault.textContent()).toMatch(/Their dry yield would then be 33 % instead of \d+ %\. In rows 2, 3, 4\./);
  await fault.getByLabel(/^Yes/).check();
  const kind = page.getByRole("group", { name: /^3 rows have a time that cannot be read/ });
  await kind.getByLabel(/^All of them: they stand as written/).check();
  await page.getByRole("button", { name: "Look again with these answers" }).click();
  expect(await page.getByRole("heading", { name: "Nothing needs you" }).count()).toBe(1);
  await page.getByRole("link", { name: "Every row, with what would become of it" }).click();
  const row = page.getByRole("row", { name: /^10 counted/ });
  expect(await row.textContent()).toContain("lets it stand as written (“two pots”)");
  await page.getByRole("link", { name: "Go back" }).click();
  await page.getByRole("button", { name: "Send", exact: true }).click();
  expect(page.url()).toContain("/slip/");
  expect(await page.getByText(/^Settled by the site lead \(\d+ answers, /).count()).toBe(1);

  await bring(page, "march.csv", MARCH);
  expect(await page.getByRole("heading", { name: "Nothing needs you" }).count()).toBe(1);
  const text = (await page.getByRole("main").textContent()) ?? "";
  expect(text).toContain("It has the columns of your log of February 2026, with changes:");
  expect(text).toContain("“Pan” is new.");
  expect(text).toContain("“Wet” is fresh in, in kg (as in your log of February 2026)");
  await page.getByLabel("Change column E").click();
  await page.getByLabel("Its unit is").nth(1).selectOption("lb");
  await page.getByRole("button", { name: "Look again with what was changed" }).click();
  expect(await page.getByText("“Wet” is fresh in, in pounds (lb)").count()).toBe(1);
  await page.getByText("3 answers are in: which?").click();
  await page.getByLabel(/^Column log!E is in pounds/).check();
  await page.getByRole("button", { name: /^Look again/ }).click();
  expect(await page.getByText("“Wet” is fresh in, in kg (as in your log of February 2026)").count()).toBe(1);
  expect(wrong).toEqual([]);
});

test("a log in which no table was found is read once somebody points at its headings and says what they mean", async () => {
  const { page, wrong } = await asMember("Mira Sand", true, "--role", "lead", "--site", "SL");
  await bring(page, "ours.csv", "Ours\nzog;blik;flim\n13/3/2026;5,2;1,7\n14/3/2026;5,3;1,8\n");
  await page.getByLabel("Row 2").check();
  await page.getByRole("button", { name: /^Look again/ }).click();
  await page.getByText("headings in row 2").waitFor();
  for (const [column, meaning] of [
    ["A", "the roasting day"],
    ["B", "fresh in"],
    ["C", "dried out"],
  ] as const) {
    await page.getByLabel(`Change column ${column}`).click();
    await page.locator(`[name="meaning:log!${column}"]`).selectOption({ label: meaning });
  }
  await page.getByRole("button", { name: /^Look again/ }).click();
  for (const column of ["B", "C"])
    await page
      .getByRole("group", { name: new RegExp(`^Column ${column},`) })
      .getByLabel(/^kg/)
      .check();
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag22aa"]).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  await page.getByRole("button", { name: /^Look again/ }).click();
  await page.getByRole("heading", { name: "Nothing needs you" }).waitFor();
  expect(wrong).toEqual([]);
});
