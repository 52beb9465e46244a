import { once } from "node:events";
import { createServer } from "node:http";
import { expect, inject, onTestFinished, test } from "vitest";
import { DESK, PHONE, withBrowser } from "../setup/browser";

const open = withBrowser();

test.each([
  { at: "/", status: 200 },
  { at: "/nothing-here", status: 404 },
])("$at keeps to its own policy and asks nobody else, on a phone and on a desk", async ({ at, status }) => {
  for (const size of [PHONE, DESK]) {
    const { page, wrong } = await open(size);
    const answer = await page.goto(at);
    expect(answer?.status()).toBe(status);
    await page.getByRole("heading", { level: 1 }).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    // The browser itself complains of the answer 404; of nothing else.
    expect(wrong.filter((complaint) => !complaint.includes("status of 404"))).toEqual([]);
  }
});

test("a script without this answer's nonce does not run", async () => {
  const { page, wrong } = await open();
  await page.goto("/");
  const ran = await page.evaluate(() => {
    const script = document.createElement("div");
    script.innerHTML = '<img src="data:," onerror="window.ran = true">';
    document.body.append(script);
    return new Promise((told) => setTimeout(() => told("ran" in window), 300));
  });
  expect(ran).toBe(false);
  expect(wrong.join()).toContain("Content Security Policy");
});

test("the address says that it is Evendry, so that a second start can tell", async () => {
  expect(await (await fetch(`${inject("address")}/healthz`)).text()).toBe("evendry\n");
});

test("a page of ours may talk to nobody else", async () => {
  const { page } = await open();
  await page.goto("/");
  const elsewhere = inject("address").replace("localhost", "127.0.0.1");
  const told = await page.evaluate(
    (url) =>
      fetch(url, { mode: "no-cors" }).then(
        () => "reached",
        () => "blocked",
      ),
    elsewhere,
  );
  expect(told).toBe("blocked");
});

test("a form posted from another site's page is turned away", async () => {
  const form = `<form method="post" action="${inject("address")}/send"><button>Win</button></form>`;
  const evil = createServer((_request, response) => response.setHeader("content-type", "text/html").end(form));
  evil.listen(0, "127.0.0.1");
  await once(evil, "listening");
  onTestFinished(() => void evil.close());
  const bound = evil.address();
  const { page } = await open();
  await page.goto(`http://127.0.0.1:${bound !== null && typeof bound === "object" ? bound.port : 0}/`);
  const [answer] = await Promise.all([page.waitForResponse(/\/send$/), page.getByRole("button").click()]);
  expect(answer.status()).toBe(403);
  expect(await answer.text()).toContain("another site's page");
});
