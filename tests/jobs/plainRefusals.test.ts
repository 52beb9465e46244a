import { TRPCError } from "@trpc/server";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { complaintsIn } from "#server/api/plainChecks";
import { complaintOf } from "../../app/posted";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2032-01-01T00:00:00Z";
const LOG = "Date,Batch no,Fresh,Dried (kg)\n2031-12-01,1,5.2,1.7\n2031-12-02,2,5.4,1.8\n";
/** How a checker speaks, not a person. */
const RAW = /invalid|expected|received|undefined|zod|regex|\bguid\b|\buuid\b/i;

async function sentenceOf(asked: Promise<unknown>): Promise<string> {
  const trouble = await asked.then(
    () => "nothing was wrong",
    (one: unknown) => one,
  );
  return complaintOf(trouble) ?? (trouble instanceof TRPCError ? trouble.message : String(trouble));
}

describe.each(KINDS)("what is refused on %s", (kind) => {
  let opened: Opened;
  let api: ReturnType<typeof apiOf>;
  let file = "";
  beforeAll(async () => {
    opened = await freshStore(kind);
    api = apiOf(opened.store, NOW);
    const open = { kind: "open", from: "2031-01-01", value: {} } as const;
    const container = { kind: "container", key: "big tin", from: "2031-01-01", value: { kg: 16 } } as const;
    await api.sites.open({ code: "OJ", declarations: [open, container] });
    ({ file } = await api.logs.arrive({ site: "OJ", bytes: bytes(LOG), name: "log.csv" }));
  });
  afterAll(() => opened.close());

  test("a broken address or id is answered with one sentence", async () => {
    const broken = "60f1-cut-off";
    const said = await Promise.all([
      sentenceOf(api.logs.file({ file: broken })),
      sentenceOf(api.logs.understood({ file: broken })),
      sentenceOf(api.logs.count({ file, withdraw: [broken], why: { reason: "late", words: "" } })),
      sentenceOf(api.sent.ownRows({ site: "OJ", file: broken })),
      sentenceOf(api.people.end({ id: broken })),
    ]);
    for (const sentence of said) {
      expect(sentence).not.toMatch(RAW);
      expect(sentence).toMatch(
        /^There is no such file\.$|names nothing that is here; the address may have been cut off/,
      );
    }
  });

  test("a value of another kind is named with what it may be", async () => {
    const asked: unknown = { name: "Amara", role: "captain" };
    // what comes over the wire has no type
    const added = (api.people.add as (input: unknown) => Promise<unknown>)(asked);
    expect(await sentenceOf(added)).toBe("role must be one of officer, lead or auditor.");
    const none = (api.people.add as (input: unknown) => Promise<unknown>)({ role: "officer" });
    expect(await sentenceOf(none)).toBe("name is missing.");
    const many = api.sent.ofSite({ site: "OJ", most: 5000 });
    expect(await sentenceOf(many)).toBe("most must be at most 100.");
  });

  test("a unit that nobody knows is no answer, wherever it is given", async () => {
    const answers = { units: { "log!C": "furlong" } };
    const refused =
      "“furlong” for column C is no unit that is known here. Say kg, g, lb, oz or t for a weight, min or h for a time, kWh for electricity, or a container of which the site has declared what it holds.";
    expect(await sentenceOf(api.logs.understood({ file, answers }))).toBe(refused);
    expect(await sentenceOf(api.sent.difference({ file, answers }))).toBe(refused);
    expect(await sentenceOf(api.logs.count({ file, answers }))).toBe(refused);
    expect(await sentenceOf(api.logs.send({ site: "OJ", bytes: bytes(LOG), name: "x", answers }))).toBe(refused);
    expect((await api.logs.file({ file })).state).toBe("arrived");
    for (const unit of ["kg", "Pounds", "big tin"])
      expect(await api.logs.understood({ file, answers: { units: { "log!C": unit } } })).toMatchObject({
        format: "delimited",
      });
  });

  test("nothing that a checker can find is said in its own words", () => {
    const all = z.object({
      a: z.guid(),
      b: z.enum(["x", "y"]),
      c: z.int().min(3),
      d: z.string().max(2),
      e: z.array(z.string()).min(1),
      f: z.strictObject({}),
      g: z.iso.datetime(),
      h: z.union([z.number(), z.boolean()]),
      i: z.literal(4),
    });
    const read = all.safeParse({ a: "no", b: "z", c: 1, d: "long", e: [], f: { more: 1 }, g: "soon", h: "x", i: 5 });
    if (read.success) throw new Error("it should be refused");
    expect(complaintsIn(read.error)).not.toMatch(RAW);
    expect(read.error.issues).toHaveLength(9);
  });
});
