import { mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { addressesOf } from "#server/front/addresses";
import { tellSignIns } from "#server/front/signIns";
import { readOptions } from "../../server/front/options.mjs";
import { socketPath } from "../../server/front/socketPath.mjs";

const signIns = [{ role: "officer", name: "Mara Okello", password: "abcd-efgh" }];
const network = {
  lo: [{ address: "127.0.0.1", internal: true, family: "IPv4" as const, netmask: "", mac: "", cidr: null }],
  wlan: [{ address: "192.168.7.20", internal: false, family: "IPv4" as const, netmask: "", mac: "", cidr: null }],
};

test("without a word npm start serves this machine alone on port 3000", () => {
  expect(readOptions([])).toEqual({ port: 3000, host: "127.0.0.1", dev: false, empty: false });
});

test("options may be written with a space or an equals sign", () => {
  const read = { port: 4000, host: "0.0.0.0", dev: true, empty: true };
  expect(readOptions(["--port", "4000", "--host", "0.0.0.0", "--dev", "--empty"])).toEqual(read);
  expect(readOptions(["--port=4000", "--host=0.0.0.0", "--dev", "--empty"])).toEqual(read);
});

test.each([
  { words: ["--port", "many"], says: /whole number/ },
  { words: ["--port", "70000"], says: /whole number/ },
  { words: ["--port"], says: /--port needs a value/ },
  { words: ["--hots", "x"], says: /does not know --hots/ },
])("$words is answered with a sentence", ({ words, says }) => {
  expect(readOptions(words)).toMatch(says);
});

test("a server for the network tells the address that a phone can use", () => {
  expect(addressesOf("0.0.0.0", 3000, network)).toEqual(["http://localhost:3000", "http://192.168.7.20:3000"]);
  expect(addressesOf("127.0.0.1", 3000, network)).toEqual(["http://localhost:3000"]);
  expect(addressesOf("fe80::1", 80, network)).toEqual(["http://[fe80::1]:80"]);
});

test("sign-ins are shown on a terminal, and elsewhere kept in a file that only we may read", () => {
  const folder = mkdtempSync(join(tmpdir(), "evendry-words-"));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  expect(tellSignIns(signIns, folder, true).join("\n")).toContain("abcd-efgh");
  const told = tellSignIns(signIns, folder, false).join("\n");
  const path = join(folder, "sign-ins.txt");
  expect(told).not.toContain("abcd-efgh");
  expect(told).toContain(path);
  expect(readFileSync(path, "utf8")).toMatch(/officer +Mara Okello +abcd-efgh/);
  expect(statSync(path).mode & 0o777).toBe(0o600);
  expect(tellSignIns([], folder, true)).toEqual([]);
});

test("the command socket is in the data folder unless its name is too long for the kernel", () => {
  expect(socketPath("/srv/evendry/data")).toBe("/srv/evendry/data/evendry.sock");
  expect(socketPath(`/srv/${"x".repeat(120)}`).length).toBeLessThan(100);
  expect(socketPath(`/srv/${"x".repeat(120)}`)).not.toBe(socketPath(`/srv/${"y".repeat(120)}`));
});
