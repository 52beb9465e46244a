import type { DemoLog, DemoScenario } from "#seed/generate";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { handedOver } from "#server/intake/handedOver";
import { readLog } from "#server/intake/readLog";
import { hintsFrom } from "#server/jobs/hints";
import { daysOfMonth } from "#server/terms/days";
import { type Fact, factValue } from "#server/terms/facts";
import type { Bounds, Reading } from "#server/terms/row";

export const BOUNDS: Bounds = {
  bytes: 10 * 2 ** 20,
  unpackedBytes: 64 * 2 ** 20,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};

/** A log of the scenario as intake reads it with what its site had declared by the end of the log's month. */
export function asRead(demo: DemoScenario, log: DemoLog): Reading {
  const hints = hintsFrom(factsOf(demo, log.site), 1, daysOfMonth(log.month).to, log.month, null);
  const grid = readGrid(log.bytes, log.name, BOUNDS);
  if (isUnreadable(grid)) throw new Error(`${log.site} ${log.name}: ${grid.refused} ${grid.detail}`);
  const reading = readLog(grid, hints);
  return { ...reading, rows: handedOver(reading.rows) };
}

function factsOf(demo: DemoScenario, site: string): Fact[] {
  const said = [...demo.sites.filter(({ code }) => code === site), ...demo.declared.filter((one) => one.site === site)];
  return said.flatMap(({ at, declarations }, index) =>
    declarations.map(({ kind, key = "", from, to = null, value }) => ({
      site: 1,
      kind,
      key,
      from,
      to,
      value: factValue(kind, value),
      ledgerIndex: index + 1,
      declaredOn: at.slice(0, 10),
    })),
  );
}

/** What the counted rows of a reading add up to, and how many rows somebody must look at. */
export function sumsOf(reading: Reading) {
  const counted = reading.rows.filter(({ fate }) => fate === "counted");
  const batches = counted.flatMap(({ batch, driedOnly }) => (batch === null ? [] : [{ batch, driedOnly }]));
  const sum = (values: readonly (number | undefined)[]) => values.reduce<number>((all, value) => all + (value ?? 0), 0);
  const fuel = counted.flatMap((row) => row.fuel.map(({ said }) => said));
  return {
    rows: counted.length,
    held: reading.counts.held,
    loads: sum(batches.map(({ batch, driedOnly }) => (driedOnly ? 0 : batch.loads))),
    freshKg: sum(batches.map(({ batch }) => batch.fresh?.value)),
    driedKg: sum(batches.map(({ batch }) => batch.dried?.value)),
    minutes: sum(batches.map(({ batch }) => batch.minutes?.value)),
    fuel: sum(
      fuel.map((said) => {
        if (said.kind === "amount") return said.amount.value;
        return said.kind === "gross" ? (said.before?.value ?? 0) - (said.after?.value ?? 0) : 0;
      }),
    ),
    cylinders: sum(fuel.map((said) => (said.kind === "cylinder-change" ? said.count : 0))),
  };
}
