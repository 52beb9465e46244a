import { asPerson } from "#db/asPerson";
import { batchesOn } from "#db/queries/batches";
import { fuelEntriesOf, fuelSpansOf } from "#db/queries/fuel";
import { allSites, factsOf } from "#db/queries/sites";
import { COMPARED_SUMS, comparedSums, daySumsOf, everyDay, monthSumsOf } from "#db/queries/sums";
import { canonical } from "#server/evidence/canonical";
import { daySums } from "#server/measures/daySums";
import { fuelSpansFrom } from "#server/measures/fuelEntries";
import { monthSums } from "#server/measures/monthSums";
import { daysOfMonth, monthOf } from "#server/terms/days";
import type { Corridor } from "./record";
import type { Difference } from "./verify";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** Works out every day and month sum and every fuel span again from batches and entries, and compares bit for bit. */
export async function verifySums(corridor: Corridor, note: (difference: Difference) => void): Promise<number> {
  const sites = await asPerson(corridor, allSites);
  const months = new Set<string>();
  let checked = 0;
  for (const { id, code } of sites) {
    const [facts, days] = await asPerson(
      corridor,
      async (tx) =>
        [(await factsOf(tx, [id], EVERYTHING)).filter((fact) => fact.site === id), await everyDay(tx, id)] as const,
    );
    for (const month of [...new Set(days.map(monthOf))]) {
      const { from, to } = daysOfMonth(month);
      months.add(month);
      const ofMonth = days.filter((day) => monthOf(day) === month);
      await asPerson(corridor, async (tx) => {
        const batches = (await batchesOn(tx, id, ofMonth, [], EVERYTHING)).map(({ batch }) => batch);
        const again = daySums(batches, facts);
        const kept = await daySumsOf(tx, [id], from, to, EVERYTHING);
        checked += kept.length;
        if (!sameRows(again, kept))
          note({
            what: "sum",
            where: `${code}, days of ${month}`,
            detail: "worked out again from the batches, the day sums are others",
          });
        if (!sameRows(monthSums(again), await monthSumsOf(tx, month, id, EVERYTHING)))
          note({ what: "sum", where: `${code} ${month}`, detail: "worked out again, the month sums are others" });
      });
    }
    await asPerson(corridor, async (tx) => {
      const again = fuelSpansFrom(await fuelEntriesOf(tx, id, EVERYTHING), facts);
      if (!sameRows(again, await fuelSpansOf(tx, [id], "0001-01-01", "9999-12-31", EVERYTHING)))
        note({ what: "fuel", where: code, detail: "worked out again, the fuel spans are others" });
    });
  }
  for (const month of months)
    await asPerson(corridor, async (tx) => {
      const all = await monthSumsOf(tx, month, null, EVERYTHING);
      const compared = all.filter(({ measure }) => COMPARED_SUMS.includes(measure));
      if (!sameRows(compared, await comparedSums(tx, month, EVERYTHING)))
        note({ what: "sum", where: month, detail: "the sums by which sites are compared are not the latest" });
    });
  return checked;
}

function sameRows(a: readonly object[], b: readonly object[]): boolean {
  const lines = (rows: readonly object[]) =>
    rows
      .map((row) => canonical(row))
      .sort()
      .join("\n");
  return lines(a) === lines(b);
}
