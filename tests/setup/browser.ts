import { type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, inject } from "vitest";

const QUIET = [
  "--disable-quic",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--no-first-run",
];

/** Sizes that pages must suit. */
export const PHONE = { width: 360, height: 640 };
export const DESK = { width: 1440, height: 900 };

/** A page, and everything that went wrong on it: broken policy, errors, requests to anywhere else. */
export interface Watched {
  readonly page: Page;
  readonly wrong: string[];
}

/** A browser for all tests of a file; each test opens pages of its own with what this returns. `where` is the demo if not said. */
export function withBrowser(
  where: () => string = () => inject("address"),
): (size?: { width: number; height: number }, javaScript?: boolean) => Promise<Watched> {
  const contexts: BrowserContext[] = [];
  let browser: Awaited<ReturnType<typeof chromium.launch>>;
  beforeAll(async () => {
    const asRoot = process.getuid?.() === 0 ? ["--no-sandbox"] : []; // Chromium's sandbox refuses root
    browser = await chromium.launch({ executablePath: inject("browser"), args: [...QUIET, ...asRoot] });
  });
  afterAll(async () => {
    for (const context of contexts) await context.close();
    await browser.close();
  });
  return async (size = DESK, javaScript = true) => {
    const address = where();
    const context = await browser.newContext({ baseURL: address, viewport: size, javaScriptEnabled: javaScript });
    contexts.push(context);
    const page = await context.newPage();
    return { page, wrong: watch(page, address) };
  };
}

function watch(page: Page, address: string): string[] {
  const wrong: string[] = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) wrong.push(message.text());
  });
  page.on("pageerror", (trouble) => wrong.push(trouble.message));
  page.on("request", (request) => {
    if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(`${address}/`))
      wrong.push(`asked ${request.url()}`);
  });
  return wrong;
}
