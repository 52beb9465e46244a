import type { Fault } from "#server/terms/fault";
import type { RowOnGrid } from "#server/terms/row";
import { plus } from "../values/exact";
import { columnOf, isPlausible, kgOf, type Load, loadsOf, middle, placeOf, pooled, rowNumbers } from "./loads";

const FEWEST = 3;

/** In and out stand the wrong way round in most loads, and the other way round their yield is plausible. */
export function inOutExchanged(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const loads = loadsOf(rows).filter(({ dried }) => dried.value > 0);
  const odd = loads.filter(({ fresh, dried }) => isPlausible(fresh.value / dried.value));
  const [first] = odd;
  if (first === undefined || odd.length < FEWEST || odd.length * 2 <= loads.length) return [];
  const fresh = columnOf(first.row, "fresh");
  const dried = columnOf(first.row, "dried");
  return [
    {
      code: "in-out-exchanged",
      evidence: { loads: odd.length, of: loads.length },
      sheet,
      rows: rowNumbers(odd),
      yieldNow: pooled(odd.map(kgOf)),
      yieldThen: pooled(odd.map((load) => ({ freshKg: load.dried.value, driedKg: load.fresh.value }))),
      answers:
        fresh === null || dried === null
          ? null
          : { meanings: { [`${sheet}!${fresh}`]: "dried", [`${sheet}!${dried}`]: "fresh" } },
    },
  ];
}

/** About as much sand as larvae makes out over in near 1.3; the other way round that is no yield, so nothing was exchanged. */
const WITH_SAND = { from: 1.1, to: 1.7 };

/** The dried weight still holds its sand: most loads weigh more out than in, by about as much as a pan of sand. */
export function sandInDried(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const loads = loadsOf(rows);
  const sandy = loads.filter(({ fresh, dried }) => {
    const share = dried.value / fresh.value;
    return share >= WITH_SAND.from && share <= WITH_SAND.to;
  });
  if (sandy.length < FEWEST || sandy.length * 2 <= loads.length) return [];
  const sieved = sandy.map(withoutSand);
  const known = sieved.every((one) => one !== null) ? sieved : [];
  return [
    {
      code: "sand-in-dried",
      evidence: {
        loads: sandy.length,
        driedPerFresh: middle(sandy.map((load) => load.dried.value / load.fresh.value)) ?? 0,
      },
      sheet,
      rows: rowNumbers(sandy),
      yieldNow: pooled(sandy.map(kgOf)),
      yieldThen: pooled(known),
      answers: known.length === 0 ? null : { cells: Object.fromEntries(known.map(({ place, put }) => [place, put])) },
    },
  ];
}

/** The weight without the sand that its own row logs; null where it logs none, or what is left is no yield. */
function withoutSand({ row, batch, fresh, dried }: Load) {
  const column = columnOf(row, "dried");
  if (batch.sandKg === null || column === null) return null;
  const exact = plus(dried.exact, `-${batch.sandKg.exact}`);
  const driedKg = Number(exact);
  return isPlausible(driedKg / fresh.value)
    ? { freshKg: fresh.value, driedKg, place: placeOf(row, column), put: `${exact} kg` }
    : null;
}
