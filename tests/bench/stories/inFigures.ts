import { dayNumber, daysOfMonth, monthOf, plusDays, plusMonths } from "#server/terms/days";
import { signalsOf } from "./inSignals";
import { type Finder, type Finding, type Loaded, MONTHS } from "./loaded";

/** Months in which, for the second time running, less than the programme's mark of what was owed can be used. */
export const recordThin: Finder = async (programme) => {
  const thin = await eachMonth(programme, (month, { rows, usableMark }) =>
    rows.flatMap(({ site, cells }) => {
      const { figure } = cells["record-usable"];
      return figure.known && figure.value < usableMark ? [overBy(programme, site, month)] : [];
    }),
  );
  const before = (day: string) => daysOfMonth(plusMonths(monthOf(day), -1)).to;
  return thin.filter(({ site, on }) => thin.some((other) => other.site === site && other.on === before(on)));
};

/** Sites whose yield and fuel rest on too few days or loads to be compared, of which nothing is said beyond chance. */
export const restsOnFew: Finder = async (programme) => {
  const signals = await signalsOf(programme);
  return eachMonth(programme, async (month, { rows, programme: { tooFew } }) => {
    const found: Finding[] = [];
    for (const { site, cells } of rows) {
      const both = [cells["dry-yield"], cells["fuel-per-driven-off"]];
      const isHollow = both.every(({ figure, little }) => figure.known && little !== null);
      const isFew = both.some(({ little }) => little?.why === "few-days" || little?.why === "wide-interval");
      if (!isHollow || !isFew || !tooFew.includes(site)) continue;
      const isSignalled = signals.some((signal) => signal.site === site && monthOf(signal.raisedOn) === month);
      const isClaimed = await isSetApart(programme, month, site);
      if (!isSignalled && !isClaimed) found.push(overBy(programme, site, month));
    }
    return found;
  });
};

async function isSetApart({ api, sites }: Loaded, month: string, site: string): Promise<boolean> {
  for (const other of sites) {
    const said = other === site ? null : await api.compare.two({ month, first: site, second: other });
    if (said !== null && Object.values(said).some(({ kind }) => kind === "beyond-chance")) return true;
  }
  return false;
}

/** Months for which a site filed that nothing was produced: it was silent before that, and is not after. */
export const nilMonth: Finder = (programme) =>
  eachMonth(programme, async (month, { rows, programme: { silent } }) => {
    const found: Finding[] = [];
    for (const { site, cells } of rows) {
      const { figure } = cells["dry-yield"];
      if (figure.known || figure.why !== "nothing-produced-declared" || silent.includes(site)) continue;
      const before = await programme.api.compare.month({ month, asOf: plusDays(daysOfMonth(month).to, 1) });
      const filed = (await programme.api.sites.facts({ site })).find(({ kind }) => kind === "nothing-produced");
      if (!before.programme.silent.includes(site) || filed === undefined) continue;
      found.push({ site, on: daysOfMonth(month).from, told: filed.declaredOn });
    }
    return found;
  });

/** Declared changes of dryer after which the figures stand apart by dryer and no chart takes the change for a signal. */
export const dryerChanged: Finder = async (programme) => {
  const { api, sites, arrived } = programme;
  const [from = "", to = ""] = [MONTHS[0], MONTHS.at(-1)];
  const signals = await signalsOf(programme);
  const found: Finding[] = [];
  for (const site of sites) {
    const { events } = await api.site.overTime({ site, from, to });
    for (const { from: day } of events.filter(({ kind }) => kind === "method")) {
      const month = monthOf(day);
      const logged = async (months: string) =>
        (await api.figures.site({ site, from: months, to: months })).map(({ method }) => method).join(" and ");
      const [before, after] = [await logged(plusMonths(month, -1)), await logged(month)];
      const isApart = before !== after && !`${before}${after}`.includes(" and ");
      const isMistaken = signals.some((one) => one.site === site && isWithin(day, one.raisedOn, 30));
      if (isApart && !isMistaken) found.push({ site, on: day, told: arrived(site, month) });
    }
  }
  return found;
};

function isWithin(day: string, other: string, days: number): boolean {
  const after = dayNumber(other) - dayNumber(day);
  return after >= 0 && after <= days;
}

function overBy({ arrived }: Loaded, site: string, month: string): Finding {
  return { site, on: daysOfMonth(month).to, told: arrived(site, month) };
}

async function eachMonth(
  { api }: Loaded,
  look: (
    month: string,
    compared: Awaited<ReturnType<typeof api.compare.month>>,
  ) => readonly Finding[] | Promise<readonly Finding[]>,
): Promise<Finding[]> {
  const found: Finding[] = [];
  for (const month of MONTHS) found.push(...(await look(month, await api.compare.month({ month }))));
  return found;
}
