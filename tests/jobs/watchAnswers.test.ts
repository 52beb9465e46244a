import { expect, test } from "vitest";
import type { AnswerRow } from "#server/jobs/watchOrder";
import type { Acknowledged } from "#server/terms/signal";
import { workingDays } from "../drift/streams";
import { ofStep, order, plan, programme, recorded, STEP, site, stepped } from "./watched";

const first = plan(order(programme()));
const [raised] = ofStep(first.signals);

function answer(acknowledged: Acknowledged): AnswerRow {
  const { site: of, method, measure, raisedOn, direction } = raised!;
  return { site: of, method, measure, raisedOn, direction, acknowledged };
}

/** What stands after an answer, and how the site's stream had come at the end of June. */
function after(acknowledged: Acknowledged, sites = programme()) {
  const told = recorded(
    first,
    plan(order(sites, { ...recorded(first), answers: [answer(acknowledged)], sayFrom: "2031-05" })),
  );
  return {
    signals: told.signals.filter((row) => row.site === STEP.site && row.raisedOn >= STEP.from),
    june: told.streams.find((row) => row.site === STEP.site && row.month === "2031-06")!,
  };
}

const days = stepped.map(({ day }) => day).filter((day) => day >= STEP.from);

test("a real change begins a new reference on its day, and ends what was raised since", () => {
  const { signals, june } = after({ kind: "real-change", from: STEP.from });
  expect(june).toMatchObject({ referenceFrom: STEP.from, begunBy: "real-change", learnt: days.length });
  expect(june.level! / first.streams.find((row) => row.site === 1 && row.month === "2031-04")!.level!).toBeCloseTo(
    1.15,
    1,
  );
  expect(new Set(signals.filter(({ raisedOn }) => raisedOn === raised!.raisedOn).map(({ state }) => state))).toEqual(
    new Set(["ended"]),
  );
  expect(signals.filter(({ state }) => state === "unsupported")).toEqual([]);
});

test("a declared and an undeclared change end with the same reference", () => {
  const answered = after({ kind: "real-change", from: STEP.from }).june;
  const declared = plan(order(programme(site(1, stepped, [{ from: STEP.from, what: "pan" }]))));
  const june = declared.streams.find((row) => row.site === STEP.site && row.month === "2031-06")!;
  expect({ ...june, begunBy: "" }).toEqual({ ...answered, begunBy: "" });
  expect(june.begunBy).toBe("pan");
});

test("a change that is declared after its signal ends the signal and does not leave it without support", () => {
  const declared = programme(site(1, stepped, [{ from: STEP.from, what: "scale" }]));
  const told = recorded(first, plan(order(declared, { ...recorded(first), sayFrom: "2031-05" })));
  const states = told.signals
    .filter((row) => row.site === 1 && row.raisedOn === raised!.raisedOn)
    .map(({ state }) => state);
  expect(new Set(states)).toEqual(new Set(["ended"]));
});

test("days with wrong records teach the reference nothing, and without them it is the one before", () => {
  const { signals, june } = after({ kind: "data-error", days });
  const calm = plan(
    order(
      programme(
        site(
          1,
          stepped.filter(({ day }) => day < STEP.from),
        ),
      ),
    ),
  );
  expect(june.learnt).toBe(calm.streams.find((row) => row.site === 1 && row.month === "2031-05")!.learnt);
  expect(june.begunBy).toBe("first-day");
  expect(signals[0]).toMatchObject({ raisedOn: raised!.raisedOn, state: "ended" });
});

test("the window of a passing cause is left out, and what comes after is held against what was before", () => {
  const back = stepped.map((point, i) => (i < STEP.at + 30 ? point : workingDays(1, 150)[i]!));
  const until = back[STEP.at + 29]!.day;
  const { june } = after({ kind: "temporary-cause", from: STEP.from, to: until }, programme(site(1, back)));
  expect(june.learnt).toBe(back.filter(({ day }) => (day < STEP.from || day > until) && day <= "2031-06-30").length);
  expect(june.level).toBeCloseTo(first.streams.find((row) => row.site === 1 && row.month === "2031-04")!.level!, 2);
});

test("no cause found changes no reference; the signal is done with all the same", () => {
  const { signals, june } = after({ kind: "no-cause-found", on: raised!.raisedOn });
  expect(june).toEqual(first.streams.find((row) => row.site === STEP.site && row.month === "2031-06"));
  expect(signals.find(({ raisedOn }) => raisedOn === raised!.raisedOn)?.state).toBe("ended");
});
