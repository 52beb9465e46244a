import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { DESK, PHONE, withBrowser } from "../setup/browser";
import { freshFolder } from "../setup/program";
import { plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);
const cookies = new Map<string, Awaited<ReturnType<ReturnType<typeof programme>["member"]>>>();

beforeAll(async () => {
  const { member, run } = programme();
  cookies.set("officer", await member("Marit Osei", "--role", "officer"));
  cookies.set("lead", await member("Jonas Fell", "--role", "lead", "--site", "OJ"));
  const folder = freshFolder();
  for (const month of ["2026-02", "2026-03"]) {
    writeFileSync(join(folder.path, `${month}.csv`), plainLog(month));
    await run("send", join(folder.path, `${month}.csv`), "--site", "OJ", "--json");
  }
  folder.remove();
});

/** A page of somebody's, and what it has asked for so far: bytes on the wire, scripts apart. */
async function weighed(who: string, size: typeof DESK, javaScript: boolean) {
  const { page } = await open(size, javaScript);
  const cookie = cookies.get(who);
  if (cookie !== undefined) await page.context().addCookies([cookie]);
  const asked: Promise<{ script: boolean; bytes: number }>[] = [];
  page.on("requestfinished", (request) =>
    asked.push(
      request.sizes().then(({ responseBodySize }) => ({
        script: request.resourceType() === "script",
        bytes: responseBodySize,
      })),
    ),
  );
  const bytes = async (script: boolean) =>
    (await Promise.all(asked)).reduce((sum, one) => (one.script === script ? sum + one.bytes : sum), 0);
  return { page, bytes };
}

test("the page for sending is light: 160 kB of script at most, and 15 kB in all without script", async () => {
  for (const javaScript of [true, false]) {
    const { page, bytes } = await weighed("lead", PHONE, javaScript);
    await page.goto("/send", { waitUntil: "networkidle" });
    expect(await bytes(false)).toBeGreaterThan(3000);
    expect(await bytes(false)).toBeLessThanOrEqual(15_000);
    expect(await bytes(true)).toBeLessThanOrEqual(javaScript ? 160_000 : 0);
    if (javaScript) expect(await bytes(true)).toBeGreaterThan(50_000);
  }
});

test("an officer's pages take 200 kB of script at most, and 400 kB once a chart is looked at closer", async () => {
  for (const path of ["/compare?month=2026-02", "/sites/OJ?from=2026-02&to=2026-03"]) {
    const { page, bytes } = await weighed("officer", DESK, true);
    await page.goto(path, { waitUntil: "networkidle" });
    expect(await bytes(true)).toBeLessThanOrEqual(200_000);
    const closer = page.getByRole("button", { name: "Look closer" }).first();
    if ((await closer.count()) === 0) continue;
    const before = await bytes(true);
    await closer.click();
    await page.locator("canvas").first().waitFor();
    await page.waitForLoadState("networkidle");
    expect(await bytes(true)).toBeGreaterThan(before);
    expect(await bytes(true)).toBeLessThanOrEqual(400_000);
  }
});

/** Networks of the published budgets: a slow phone's on the way to the site, a usual one. */
const SLOW = { latency: 600, kbps: 200 };
const USUAL = { latency: 150, kbps: 1600 };

test.each([
  ["lead", "/send", PHONE, SLOW],
  ["officer", "/compare?month=2026-02", DESK, USUAL],
  ["officer", "/sites/OJ?from=2026-02&to=2026-03", DESK, USUAL],
] as const)(
  "%s, %s: what matters stands there within 2.5 s of the first answer and stays put",
  async (who, path, size, network) => {
    const { page } = await weighed(who, size, true);
    await slowed(page, network);
    await page.goto(path, { waitUntil: "networkidle", timeout: 60_000 });
    const { painted, moved, answered } = await page.evaluate(async () => {
      const entries = (type: string) =>
        new Promise<PerformanceEntry[]>((resolve) => {
          new PerformanceObserver((list) => resolve(list.getEntries())).observe({ type, buffered: true });
          setTimeout(() => resolve([]), 500);
        });
      const moves = (await entries("layout-shift")) as (PerformanceEntry & { value: number })[];
      const [navigation] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
      return {
        painted: (await entries("largest-contentful-paint")).at(-1)?.startTime ?? null,
        moved: moves.reduce((sum, { value }) => sum + value, 0),
        answered: navigation?.responseStart ?? 0,
      };
    });
    // the answer itself takes as long as the machine of the test is busy; what comes after is the page's
    expect(painted).not.toBeNull();
    expect((painted ?? 0) - answered).toBeLessThanOrEqual(2500);
    expect(moved).toBeLessThanOrEqual(0.1);
  },
);

async function slowed(page: Page, { latency, kbps }: typeof SLOW): Promise<void> {
  const tools = await page.context().newCDPSession(page);
  const throughput = (kbps * 1000) / 8;
  await tools.send("Network.emulateNetworkConditions", {
    offline: false,
    latency,
    downloadThroughput: throughput,
    uploadThroughput: throughput,
  });
}
