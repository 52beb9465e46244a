import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const HEADING = "Date,Batch no,Fresh (kg),Dried (kg),Minutes,Firewood (kg)";
const LOADS = [
  "2031-04-01,1,10,3.3,90,1.2",
  "2031-04-01,2,11,3.6,95,1.3",
  "2031-04-02,3,12,3.9,95,1.4",
  "2031-04-03,4,10.5,3.4,92,1.2",
];

describe.each(KINDS)("a log sent again on the %s database", (kind) => {
  let opened: Opened;
  let sites = 0;
  beforeAll(async () => {
    opened = await freshStore(kind);
  }, 120_000);
  afterAll(() => opened.close());

  const api = () => apiOf(opened.store, NOW);

  /** A site of its own for a test, whose numbers never come twice. */
  async function newSite(): Promise<string> {
    const site = `S${++sites}`;
    const from = "2031-01-01";
    await api().sites.open({
      code: site,
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
        { kind: "numbering", from, value: { unique: "site" } },
        { kind: "due", from, value: { dayOfMonth: 10 } },
      ],
    });
    return site;
  }

  const log = (lines: readonly string[], heading = HEADING) => bytes(`${[heading, ...lines].join("\n")}\n`);

  async function send(site: string, lines: readonly string[], more: { withdraw?: string[]; at?: string } = {}) {
    const { at = NOW, ...rest } = more;
    const sending = await apiOf(opened.store, at).logs.send({ site, bytes: log(lines), name: "log.csv", ...rest });
    if (!("slip" in sending)) throw new Error("it was not read");
    return sending.slip;
  }

  /** Fresh, dried and fuel of April, and how many batches they rest on. */
  async function april(site: string) {
    const [month] = await api().figures.site({ site, from: "2031-04", to: "2031-04" });
    const { fresh, heat } = month?.figures ?? {};
    const dry = month?.figures["dry-yield"];
    const freshKg = fresh?.known ? fresh.value : null;
    return {
      freshKg,
      yield: dry?.known ? Math.round(dry.value * 1e6) / 1e6 : null,
      heat: heat?.known ? heat.value : null,
      used: fresh?.restsOn.used ?? 0,
    };
  }

  test("a part of a month and then the whole of it double nothing, and each can be taken back without the other", async () => {
    const site = await newSite();
    const part = await send(site, LOADS.slice(0, 2));
    const whole = await send(site, LOADS);
    expect(whole.batches).toMatchObject({ new: 2, same: 2, changed: 0, vanished: 0 });
    const both = await april(site);
    expect(both).toMatchObject({ freshKg: 43.5, used: 4 });
    await api().logs.withdraw({ file: part.file, reason: "the whole month is here" });
    expect(await april(site)).toEqual(both);
    await api().logs.withdraw({ file: whole.file, reason: "to be sent once more" });
    expect(await april(site)).toMatchObject({ freshKg: null, used: 0 });
    await send(site, LOADS);
    expect(await april(site)).toEqual(both);
  });

  test("taken back, a later log leaves what an earlier one told as that told it", async () => {
    const site = await newSite();
    await send(site, [...LOADS.slice(0, 3), "2031-04-03,4,10.5,,92,1.2", "2031-04-04,4,,3.4,,"]);
    const first = await april(site);
    const later = await send(site, ["2031-04-02,3,12.5,3.9,95,1.5", "2031-04-03,4,10.5,,92,1.2", "2031-04-05,5,9,3,80,1"]);
    expect(later.batches).toMatchObject({ new: 1, same: 1, changed: 1 });
    await api().logs.withdraw({ file: later.file, reason: "another site's log" });
    expect(await april(site)).toEqual(first);
    expect((await api().ledger.verify()).differences).toEqual([]);
  });
});
