import { expect, test } from "vitest";
import { PHONE, withBrowser } from "../setup/browser";
import { answer, bring, button, enter, isSound, says, tabTo } from "./keys";
import { plainLog, withProgramme } from "./programme";

const programme = withProgramme();
const open = withBrowser(() => programme().address);

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
