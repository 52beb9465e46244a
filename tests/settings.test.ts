import { resolve } from "node:path";
import { expect, test } from "vitest";
import { readSettings } from "#server/settings";

test("without any setting the database is embedded in the folder data and the demo is wanted", () => {
  expect(readSettings({})).toMatchObject({
    dataDir: resolve("data"),
    databaseUrl: null,
    databaseOwnerUrl: null,
    embedded: true,
    empty: false,
    trustedProxy: false,
    watchAlong: true,
    production: false,
    bounds: {
      bytes: 10 * 2 ** 20,
      unpackedBytes: 64 * 2 ** 20,
      rows: 20_000,
      columns: 512,
      cellCharacters: 32_767,
      sheets: 40,
    },
  });
});

test("a PostgreSQL address takes the place of the embedded database", () => {
  const settings = readSettings({ DATABASE_URL: "postgres://ev@localhost/evendry" });
  expect(settings).toMatchObject({ embedded: false, databaseUrl: "postgres://ev@localhost/evendry" });
});

test("a setting left blank is as good as none", () => {
  expect(readSettings({ DATABASE_URL: "", MAX_ROWS: "" })).toEqual(readSettings({}));
});

test.each([
  { name: "MAX_ROWS", value: "many", says: "must be a whole number from 1 to 1000000" },
  { name: "MAX_ROWS", value: "0", says: "must be a whole number from 1 to 1000000" },
  { name: "MAX_FILE_MIB", value: "1.5", says: "must be a whole number from 1 to 1024" },
  { name: "DATABASE_URL", value: "mysql://localhost/x", says: "must begin with postgres:// or postgresql://" },
  { name: "DATABASE_OWNER_URL", value: "evendry", says: "must begin with postgres:// or postgresql://" },
  { name: "WATCH_ALONG", value: "sometimes", says: "must be yes or no" },
  { name: "EMPTY", value: "perhaps", says: "must be yes or no" },
])("$name=$value is refused in a sentence that names it", ({ name, value, says }) => {
  expect(() => readSettings({ [name]: value })).toThrow(`The setting ${name} ${says}.`);
});
