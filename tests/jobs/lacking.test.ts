import { describe, expect, test } from "vitest";
import { callerOf } from "#server/api/router";
import { progressOf } from "#server/jobs/underWay";
import { OPERATOR } from "#server/terms/person";
import { backFile } from "../bench/backFile";
import { BOUNDS, bytes, freshStore, KINDS } from "../setup/stores";

const LOADS = 2_400;
/** Ten loads a day, five hundred rows a part: the first part ends with the fiftieth day that the log has. */
const EDGE = "2000-02-20";
const WITHIN = "2000-05-01";
const clock = () => new Date("2032-01-01T00:00:00Z");

describe.each(KINDS)("a large log that lacks whole days, on %s", (kind) => {
  test("shows the loads of these days as vanished, also where they are lacking at the edge of a part", {
    timeout: 240_000,
  }, async () => {
    const opened = await freshStore(kind);
    const api = callerOf({ store: opened.store, person: OPERATOR, clock, bounds: BOUNDS });
    const declarations = [
      { kind: "open", from: "1999-01-01", value: {} },
      { kind: "method", from: "1999-01-01", value: { method: "sand-pan" } },
    ] as const;
    await api.sites.open({ code: "OJ", declarations: [...declarations] });
    const whole = backFile(LOADS, 1).toString();
    const without = whole
      .split("\n")
      .filter((line) => !line.startsWith(EDGE) && !line.startsWith(WITHIN))
      .join("\n");
    // what another log told of such a day is no business of this one
    const other = `Date,Batch no,Pan,Fresh (kg),Dried (kg)\n${EDGE},77,9,5,1.6\n`;
    await api.logs.send({ site: "OJ", bytes: bytes(whole), name: "whole.csv" });
    await api.logs.send({ site: "OJ", bytes: bytes(other), name: "other.csv" });
    const { file } = await api.logs.arrive({ site: "OJ", bytes: bytes(without), name: "without.csv" });

    const difference = await api.sent.difference({ file });
    const days = difference?.vanished.map(({ day }) => day);
    expect(days).toEqual([...Array(10).fill(EDGE), ...Array(10).fill(WITHIN)]);
    expect(difference?.vanished.some(({ number }) => number === "77")).toBe(false);
    expect(difference?.counts).toMatchObject({ new: 0, changed: 0, same: LOADS - 20 });

    const counting = api.logs.count({ file });
    const stopped = expect(counting).rejects.toThrow("It was stopped.");
    while ((progressOf(file, OPERATOR.id)?.rows ?? 0) === 0 || progressOf(file, OPERATOR.id)?.inParts !== true)
      await new Promise((on) => setTimeout(on, 1));
    await api.logs.stop({ file });
    await stopped;
    expect(await api.logs.count({ file })).toMatchObject({
      slip: { batches: { new: 0, same: LOADS - 20, vanished: 20 } },
    });
    await opened.close();
  });
});
