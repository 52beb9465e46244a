import type { Api } from "#seed/load";
import { faultsOf } from "#server/intake/faults/faultsOf";
import { daysOfMonth } from "#server/terms/days";
import type { Finder, Loaded } from "./loaded";

/** Logs whose slip says that every batch was there before, while the month's figures stayed what they were. */
export const sentAgain: Finder = async (programme) => {
  const { api } = programme;
  const found = await eachFile(programme, async (site, file) => {
    const { slip, arrivedAt } = file;
    const { new: fresh, changed, same, joined, vanished } = slip.batches;
    const [month] = slip.months;
    if (month === undefined || same === 0 || fresh + changed + joined + vanished > 0) return [];
    const before = await monthIn(api, site, month, new Date(Date.parse(arrivedAt) - 1).toISOString());
    const doubled = before !== (await monthIn(api, site, month, arrivedAt));
    return doubled ? [] : [{ site, on: daysOfMonth(month).from, told: arrivedAt }];
  });
  return found;
};

/** Blocks of rows that come again further down in the same sheet, by the first day of the copies. */
export const blockCopied: Finder = (programme) =>
  eachFile(programme, async (site, { file, period, arrivedAt }) => {
    const asked = period === null ? {} : { period };
    const reading = await programme.api.logs.understood({ file, ...asked });
    if ("refused" in reading) return [];
    const hints = await programme.api.logs.hints({ site, ...asked });
    return faultsOf(reading, hints).flatMap((fault) => {
      const copies = fault.code === "rows-copied" && fault.evidence.after > 1 ? fault.rows : [];
      const days = reading.rows
        .filter(({ sheet, row }) => sheet === fault.sheet && copies.includes(row))
        .flatMap(({ batch }) => batch?.day ?? []);
      return days.sort()[0] === undefined ? [] : [{ site, on: days[0] ?? "", told: arrivedAt }];
    });
  });

async function monthIn(api: Api, site: string, month: string, asOf: string): Promise<string> {
  const months = await api.figures.site({ site, from: month, to: month, asOf });
  return months
    .flatMap(({ figures: { fresh, dried } }) => [fresh, dried])
    .map((figure) => (figure.known ? `${figure.value} of ${figure.restsOn.here}` : figure.why))
    .join(" ");
}

async function eachFile<T>(
  { api, sites }: Loaded,
  look: (
    site: string,
    file: { file: string; period: string | null; arrivedAt: string; slip: Awaited<ReturnType<Api["logs"]["slip"]>> },
  ) => Promise<T[]>,
): Promise<T[]> {
  const found: T[] = [];
  for (const site of sites) {
    for (const { file, arrivedAt } of await api.logs.list({ site })) {
      const { period } = await api.logs.file({ file });
      found.push(...(await look(site, { file, period, arrivedAt, slip: await api.logs.slip({ file }) })));
    }
  }
  return found;
}
