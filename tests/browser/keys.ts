import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { PHONE } from "../setup/browser";

export interface Focused {
  readonly says: string;
  readonly type: string;
  readonly name: string;
  readonly isSeen: boolean;
}

/** What has the focus, and whether a person can see it, with its ring. */
export const focused = (page: Page): Promise<Focused> =>
  page.evaluate(() => {
    const one = document.activeElement;
    if (!(one instanceof HTMLElement)) return { says: "", type: "", name: "", isSeen: false };
    const { top, bottom, left, width, height } = one.getBoundingClientRect();
    const { outlineStyle, outlineWidth } = getComputedStyle(one);
    const isIn = (top >= -1 && bottom <= innerHeight + 1) || height > innerHeight;
    const above = document.elementFromPoint(left + width / 2, Math.max(0, top) + Math.min(height, innerHeight) / 2);
    const isCovered = above !== null && !one.contains(above) && !above.contains(one);
    const field = one instanceof HTMLInputElement || one instanceof HTMLSelectElement ? one : null;
    const label = field?.labels?.[0]?.textContent ?? one.textContent ?? "";
    return {
      says: label.trim().slice(0, 120),
      type: field?.type ?? one.tagName,
      name: field?.name ?? "",
      isSeen: isIn && !isCovered && outlineStyle !== "none" && outlineWidth !== "0px",
    };
  });

/** Goes on by the tabulator until something that is meant has the focus; everything on the way must be seen. */
export async function tabTo(page: Page, isMeant: (one: Focused) => boolean): Promise<Focused> {
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

export const says = (words: string) => (one: Focused) => one.says.startsWith(words);
export const button = (words: string) => (one: Focused) => one.type === "BUTTON" && one.says.startsWith(words);

/** Presses Enter and waits for the page that it leads to, also where a slow machine first shows how far it is. */
export async function enter(page: Page): Promise<void> {
  await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
  await page.waitForFunction(() => document.querySelector('form[action$="/stop"]') === null);
  await page.waitForLoadState();
}

export async function bring(page: Page, name: string, content: string | Buffer, mimeType = "text/csv"): Promise<void> {
  await page.goto("/send");
  await tabTo(page, ({ type }) => type === "file");
  // what stands in the window of the system in which a file is chosen is no page of ours
  await page.locator("#log").setInputFiles({ name, mimeType, buffer: Buffer.from(content) });
  await tabTo(page, button("Look at it first"));
  await enter(page);
}

/** Chooses an answer of the next question by the arrow keys. */
export async function answer(page: Page, words: string): Promise<void> {
  let one = await tabTo(page, ({ type }) => type === "radio");
  for (let at = 0; at < 20 && !one.says.startsWith(words); at++) {
    await page.keyboard.press("ArrowDown");
    one = await focused(page);
  }
  expect(one.says).toContain(words);
}

export async function isSound(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag22aa"]).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
}
