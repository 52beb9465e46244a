import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const HEADING = "Date,Batch no,Fresh (kg),Dried (kg)";
const LOADS = ["2031-04-01,1,10,3.3", "2031-04-01,2,11,3.6", "2031-04-02,3,12,3.9", "2031-04-03,4,10.5,3.4"];

describe.each(KINDS)("logs sent by hostile or hasty hands on the %s database", (kind) => {
  let opened: Opened;
  let sites = 0;
  beforeAll(async () => {
    opened = await freshStore(kind);
  }, 120_000);
  afterAll(() => opened.close());

  const api = () => apiOf(opened.store, NOW);

  async function newSite(): Promise<string> {
    const site = `S${++sites}`;
    const from = "2031-01-01";
    await api().sites.open({
      code: site,
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
        { kind: "numbering", from, value: { unique: "site" } },
      ],
    });
    return site;
  }

  const log = (lines: readonly string[]) => bytes(`${[HEADING, ...lines].join("\n")}\n`);

  async function send(site: string, lines: readonly string[]) {
    const sending = await api().logs.send({ site, bytes: log(lines), name: "log.csv" });
    if (!("slip" in sending)) throw new Error("it was not read");
    return sending.slip;
  }

  async function loadsOf(site: string) {
    const [month] = await api().figures.site({ site, from: "2031-04", to: "2031-04" });
    return month?.figures.fresh?.restsOn.used ?? 0;
  }

  test("answers for a log that was taken back count nothing", async () => {
    const site = await newSite();
    const { file } = await send(site, LOADS);
    await api().logs.withdraw({ file, reason: "the wrong one" });
    await expect(api().logs.count({ file, again: true })).rejects.toThrow("taken back");
    await expect(api().logs.count({ file })).rejects.toThrow("taken back");
    expect(await loadsOf(site)).toBe(0);
  });

  test("taken back while somebody answers, a log counts wholly or not at all", async () => {
    const site = await newSite();
    const { file } = await send(site, LOADS);
    await Promise.allSettled([
      api().logs.count({ file, again: true, answers: { setAside: ["log!2"] } }),
      api().logs.withdraw({ file, reason: "the wrong one" }),
      api().logs.count({ file, again: true, answers: { setAside: ["log!3"] } }),
    ]);
    const { state } = await api().logs.file({ file });
    expect(state).toBe("withdrawn");
    expect(await loadsOf(site)).toBe(0);
  });

  test("the same log sent by two at once counts once", async () => {
    const site = await newSite();
    const slips = await Promise.all([send(site, LOADS), send(site, LOADS), send(site, [...LOADS].reverse())]);
    expect(slips[0]?.file).toBe(slips[1]?.file);
    expect(await loadsOf(site)).toBe(4);
  });

  test("counted again after another log changed it, a log doubles nothing", async () => {
    const site = await newSite();
    const { file } = await send(site, LOADS);
    await send(site, LOADS.map((line) => line.replace("3.9", "4.1")).slice(1));
    await api().logs.count({ file, again: true });
    await api().logs.count({ file, again: true, answers: { are: { "log!4": "no such load" } } });
    expect((await api().sent.difference({ file }))?.counts).toMatchObject({ new: 0, doubtful: 0, same: 4 });
    expect(await loadsOf(site)).toBe(4);
  });

  test("what is no day of the calendar is no answer to the day of a sheet", async () => {
    const site = await newSite();
    const { file } = await send(site, LOADS);
    await expect(api().logs.count({ file, again: true, answers: { days: { log: "2031-99-99" } } })).rejects.toThrow(
      "must be a day of the calendar",
    );
  });

  test("a site's code with a byte that no text holds is a site that does not exist", async () => {
    await expect(api().sent.ofSite({ site: "S\0" })).rejects.toThrow("There is no site");
  });

  test("reasons, names and answers with bytes that no text holds break nothing", async () => {
    const site = await newSite();
    const odd = "a\0b\ud800";
    const { file } = await api().logs.arrive({ site, bytes: log(LOADS), name: `${odd}.csv` });
    await api().logs.count({
      file,
      answers: { cells: { "log!C2": odd }, units: { [odd]: "kg" }, are: { [odd]: odd } },
    });
    await api().logs.count({ file, again: true, why: { reason: "other", words: odd } });
    await api().logs.withdraw({ file, reason: odd });
    expect((await api().sent.ofSite({ site })).logs).toHaveLength(1);
    expect((await api().sent.deeds({ file })).length).toBeGreaterThan(2);
  });

  test("a dried weight of several loads that are here one by one is held with a sentence about just that", async () => {
    const site = await newSite();
    await send(site, ["2031-04-01,3,10,", "2031-04-01,4,11,", "2031-04-01,5,12,"]);
    const sending = await api().logs.send({
      site,
      bytes: bytes("Date,Batch no,Dried (kg)\n2031-04-01,3+4+5,11\n"),
      name: "dried.csv",
    });
    if (!("slip" in sending)) throw new Error("it was not read");
    expect(sending.slip.rows).toMatchObject({ counted: 0, held: 1 });
    const [, held] = await api().logs.rows({ file: sending.slip.file });
    expect(held?.reasons.at(-1)).toMatchObject({ code: "dried-without-load", text: "3+4+5" });
  });

  test("before it is sent, a dried weight without its load is told as one that will wait", async () => {
    const site = await newSite();
    const { file } = await api().logs.arrive({
      site,
      bytes: bytes("Date,Batch no,Dried (kg)\n2031-04-01,77,3.3\n"),
      name: "dried.csv",
    });
    expect((await api().sent.difference({ file }))?.counts).toMatchObject({ noLoad: 1 });
  });
});
