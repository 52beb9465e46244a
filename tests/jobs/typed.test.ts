import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { apiOf, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const PICTURE = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);
const TYPED = {
  massUnit: "kg",
  fuel: "LPG (kg)",
  lines: [
    { line: 2, cells: { day: "2031-04-01", number: "1", fresh: "10", dried: "3.3", minutes: "90" } },
    { line: 3, cells: { remarks: " " } },
    { line: 5, cells: { day: "2031-04-02", number: "2", fresh: "9.5", dried: "3.1", minutes: "85" } },
  ],
} as const;

describe.each(KINDS)("a picture that is typed, on the %s database", (kind) => {
  let opened: Opened;
  let picture = "";
  const api = () => apiOf(opened.store, NOW);
  const sheet = () => ({ ...TYPED, file: picture, lines: TYPED.lines.map((line) => ({ ...line })) });
  beforeAll(async () => {
    opened = await freshStore(kind);
    const from = "2031-01-01";
    await api().sites.open({
      code: "OJ",
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
      ],
    });
    const arrived = await api().logs.arrive({
      site: "OJ",
      bytes: PICTURE,
      name: "april.jpg",
      cameBy: "message",
      claimedAt: "2031-05-01T12:00:00Z",
    });
    picture = arrived.file;
  }, 120_000);
  afterAll(() => opened.close());

  test("it waits; typed, each of the two names the other, and the log came as its picture came", async () => {
    expect(await api().logs.list({ site: "OJ" })).toMatchObject([{ file: picture, typing: "waiting" }]);
    const { file } = await api().logs.type(sheet());
    const typed = await api().logs.file({ file });
    const before = await api().logs.file({ file: picture });
    expect(typed).toMatchObject({
      state: "arrived",
      name: `typed from ${before.code}.csv`,
      cameBy: "message",
      claimedAt: "2031-05-01T12:00:00.000Z",
      picture: null,
      typedFrom: { file: picture, code: before.code, lines: [2, 5] },
    });
    expect(before).toMatchObject({ picture: "jpeg", typed: [{ file, code: typed.code }], typedFrom: null });
    expect(await api().logs.list({ site: "OJ" })).toMatchObject([
      { file, typing: null },
      { file: picture, typing: "typed" },
    ]);
  });

  test("the same typed twice is one log; counted, it still names its picture", async () => {
    const { file } = await api().logs.type(sheet());
    expect((await api().logs.file({ file: picture })).typed).toHaveLength(1);
    expect(await api().logs.count({ file })).toMatchObject({ slip: { rows: { counted: 2, setAside: 1, held: 0 } } });
    expect((await api().logs.file({ file })).typedFrom?.lines).toEqual([2, 5]);
  });

  test("nothing is typed from what is no picture, nor from one that was taken back", async () => {
    const { file } = await api().logs.type(sheet());
    await expect(api().logs.type({ ...sheet(), file })).rejects.toThrow("This is no picture.");
    await api().logs.withdraw({ file: picture, reason: "blurred" });
    await expect(api().logs.type(sheet())).rejects.toThrow("This picture was taken back.");
    expect((await api().logs.file({ file })).state).toBe("counted");
  });
});
