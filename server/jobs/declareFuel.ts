import { fuelEntriesOf } from "#db/queries/fuel";
import { lockSite } from "#db/queries/ledger";
import { factsOf } from "#db/queries/sites";
import type { Fuel, FuelDeclared } from "#server/terms/fuel";
import { newId } from "./newId";
import { type Corridor, record } from "./record";
import { refuel } from "./refuel";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** Records fuel burned over some days. The same days, fuel and way of knowing declared again correct the earlier one. */
export async function declareFuel(
  corridor: Corridor,
  site: number,
  span: { readonly fuel: Fuel; readonly from: string } & Omit<FuelDeclared, "kind">,
): Promise<void> {
  await record<void>(corridor, async (tx) => {
    await lockSite(tx, site);
    const facts = (await factsOf(tx, [site], EVERYTHING)).filter((fact) => fact.site === site);
    const there = (await fuelEntriesOf(tx, site, EVERYTHING)).find(
      ({ day, fuel, said }) =>
        said.kind === "span" && day === span.from && fuel === span.fuel && said.to === span.to && said.how === span.how,
    );
    const { to, how, unit, low, best, high } = span;
    const said: FuelDeclared = { kind: "span", to, how, unit, low, best, high };
    const entry = {
      id: there?.id ?? newId(corridor.clock()),
      site,
      day: span.from,
      fuel: span.fuel,
      batch: null,
      said,
      file: null,
      withdrawn: false,
    };
    return {
      command: "declare-fuel",
      site,
      changes: { fuelEntries: [entry], ...(await refuel(tx, site, new Map([[entry.id, entry]]), facts)) },
      answer: () => undefined,
    };
  });
}
