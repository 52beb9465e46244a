import { existsSync } from "node:fs";
import { join } from "node:path";

/**
 * A browser of the Chromium family on this machine: the one named by BROWSER_PATH, Playwright's own, or one in its usual place.
 *
 * @returns {Promise<string | null>}
 */
export async function findBrowser() {
  const home = process.env.HOME ?? "";
  const windows = [process.env.PROGRAMFILES, process.env["PROGRAMFILES(X86)"], process.env.LOCALAPPDATA].filter(
    Boolean,
  );
  const { chromium } = await import("playwright-core");
  const places = [
    process.env.BROWSER_PATH,
    chromium.executablePath(),
    ...["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "microsoft-edge"].map(
      (name) => `/usr/bin/${name}`,
    ),
    "/snap/bin/chromium",
    ...["", home].flatMap((at) =>
      ["Google Chrome", "Chromium"].map((name) => `${at}/Applications/${name}.app/Contents/MacOS/${name}`),
    ),
    ...windows.flatMap((at) =>
      ["Google/Chrome/Application/chrome.exe", "Microsoft/Edge/Application/msedge.exe"].map((name) =>
        join(at ?? "", name),
      ),
    ),
  ];
  return places.find((path) => path && existsSync(path)) ?? null;
}
