import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { freshFolder } from "../setup/program";
import { PUZZLING_LOG, withProgramme } from "./programme";

const programme = withProgramme(/./);
const open = withBrowser(() => programme().address);

test("a page whose log is gone from the disk says in words that it broke, without script", async () => {
  const { member, run, dataDir } = programme();
  const cookie = await member("Marit Osei", "--role", "officer");
  const folder = freshFolder();
  writeFileSync(join(folder.path, "puzzling.csv"), PUZZLING_LOG);
  const [sent] = JSON.parse(await run("send", join(folder.path, "puzzling.csv"), "--site", "OJ", "--json"));
  folder.remove();
  rmSync(join(dataDir, "inbox"), { recursive: true });
  const { page } = await open(PHONE, false);
  await page.context().addCookies([cookie]);
  const answer = await page.goto(`/send/${sent.file}`);
  expect(answer?.status()).toBe(500);
  await page.getByRole("heading", { level: 1, name: "Something broke on our side" }).waitFor();
  expect(await page.locator("body").textContent()).not.toMatch(/ENOENT|inbox|\.ts/);
  await page.getByRole("link", { name: "Go to the first page" }).click();
  await page.getByRole("heading", { level: 1 }).waitFor();
});
