import { asPerson } from "#db/asPerson";
import { lastWatched, logsOfDays, recordTimes, revisionsOf } from "#db/queries/signals";
import { allSites, factsOf } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { inForce } from "#server/terms/facts";
import type { Person } from "#server/terms/person";
import type { StreamName } from "#server/terms/signal";
import type { HeldTold, SignalShown, StreamShown } from "#server/terms/signalTold";
import { foundAfter } from "./foundAfter";
import { storiesTold } from "./inbox";
import type { Corridor } from "./record";
import { recordPoints, shownStream } from "./shownStream";
import { signalsOf } from "./signals";
import { pointsOf, referencesOf } from "./streamShown";
import { namesOf, tell, telling } from "./tellSignals";
import { type MonthRow, type SignalKey, streamKey, TOGETHER } from "./watchOrder";
import { answerRow, monthRows, standingAnswers } from "./watchRead";
import { sitesWatched, siteWatched } from "./watchSites";

/** A page of one signal begins so many months before its change. */
const MONTHS_BEFORE = 3;

/** A size of the ledger, the day its last record was made, and the day from which "so many days from now" counts. */
export interface AskedAt {
  readonly size: number;
  readonly today: string;
  readonly now: string;
}

export interface StreamAsked extends AskedAt {
  readonly name: StreamName;
  readonly from: string;
  readonly to: string;
}

/** A stream over some months: its days, its references, what it is held to, and how soon a change would be found. */
export async function streamShown(corridor: Corridor, person: Person, asked: StreamAsked): Promise<StreamShown> {
  const { name, from, to, size, today, now } = asked;
  const sites =
    name.site === null
      ? (await sitesWatched(corridor.store, monthOf(today), size)).sites
      : [await siteWatched(corridor.store, name.site, monthOf(today), size)];
  return asPerson(corridor, async (tx) => {
    const months = await monthRows(tx, from, to, size);
    const answers = (await standingAnswers(tx, name.site, size)).map(answerRow);
    const shown = shownStream(name, sites, months, answers);
    const last = months.at(-1);
    const points =
      name.measure === "completeness"
        ? sites.flatMap((site) => recordPoints(site, months, { from, to, today }))
        : pointsOf(shown, from, to);
    const references = last === undefined || name.measure === "completeness" ? [] : referencesOf(shown, last.month);
    const running = references.at(-1);
    const rows = (await signalsOf(tx, from, to, name.site, size)).filter((row) => streamKey(row) === streamKey(name));
    const known = await telling(tx, rows, size);
    const facts = name.site === null ? [] : await factsOf(tx, [name.site], size);
    const code = name.site === null ? null : ((await allSites(tx)).find(({ id }) => id === name.site)?.code ?? null);
    const held = last === undefined ? undefined : shown.heldIn(last.month);
    // of months whose log is still to come nothing follows for how soon a change would be found
    const busy = monthOf(points.at(-1)?.day ?? daysOfMonth(to).to);
    const inBusy = points.filter(({ day }) => monthOf(day) === busy).length;
    return {
      stream: { site: code, method: name.method, measure: name.measure },
      name:
        name.site === null || code === null ? null : (namesOf(facts, [{ id: name.site, code }]).get(name.site) ?? code),
      points,
      references,
      held: last === undefined ? null : heldTold(last, name),
      delays:
        last === undefined || held === undefined || running === undefined || name.site === null
          ? []
          : foundAfter(
              { learnt: running.days, unit: running.spread, points: inBusy, daysInMonth: lengthOf(busy) },
              held,
              now,
              inForce(facts, "due", now)?.dayOfMonth ?? null,
            ),
      signals: tell(rows, known, person),
    };
  });
}

function lengthOf(month: string): number {
  return Number(daysOfMonth(month).to.slice(8));
}

function heldTold({ month, edition, groups }: MonthRow, { method, measure }: StreamName): HeldTold | null {
  const group = groups.find((one) => one.method === method && one.measure === measure);
  if (group === undefined) return null;
  const { pooled, rules } = group;
  const { omega, rho, d0, s02, from, streams, points } = pooled;
  const { lambda, clamp, edge, spikeAt } = rules;
  const said = { month, edition, omega, rho, d0, s02, from, streams, points, lambda, clamp, edge };
  return { ...said, spikeAt: Number.isFinite(spikeAt) ? spikeAt : null };
}

/** One signal with everything behind it; null where there is none that the person may see. */
export async function signalShown(
  corridor: Corridor,
  person: Person,
  key: SignalKey,
  at: AskedAt,
): Promise<Omit<SignalShown, "mayAnswer"> | null> {
  const found = await asPerson(corridor, (tx) => around(tx, person, key, at.size));
  if (found === null) return null;
  const since = found.signal.sinceFrom;
  const name = { site: key.site === TOGETHER ? null : key.site, method: key.method, measure: key.measure };
  const from = plusMonths(monthOf(since), -MONTHS_BEFORE);
  const shown = await streamShown(corridor, person, { name, from, to: found.to, ...at });
  const days = { from: since, to: daysOfMonth(monthOf(key.raisedOn)).to };
  const logs =
    name.site === null
      ? new Map<string, string[]>()
      : await asPerson(corridor, (tx) => logsOfDays(tx, key.site, days.from, days.to, at.size));
  const points = shown.points.map((point) => ({ ...point, files: logs.get(point.day) ?? [] }));
  const { to: _to, ...told } = found;
  return { ...told, name: shown.name, shown: { ...shown, points } };
}

async function around(tx: Tx, person: Person, key: SignalKey, size: number) {
  const to = await lastWatched(tx, size);
  if (to === null) return null;
  const month = monthOf(key.raisedOn);
  const rows = await signalsOf(tx, plusMonths(month, -6), to, null, size);
  const near = rows.filter(({ site }) => site === key.site || site === TOGETHER);
  const known = await telling(tx, near, size);
  const stories = storiesTold(near, known, person);
  const own = near.find(
    (row) => streamKey(row) === streamKey(key) && row.raisedOn === key.raisedOn && row.direction === key.direction,
  );
  const signal = own === undefined ? undefined : tell([own], known, person)[0];
  if (own === undefined || signal === undefined) return null;
  const story = stories.find(({ signals }) => signals.some(({ id }) => id === signal.id));
  const revisions = await revisionsOf(tx, key, size);
  const times = await recordTimes(
    tx,
    revisions.map(({ ledgerIndex }) => ledgerIndex),
  );
  return {
    to,
    signal,
    others: (story?.signals ?? []).filter(({ id }) => id !== signal.id),
    partOf: story?.partOf ?? null,
    answers: known.answers.get(`${streamKey(key)} ${key.raisedOn} ${key.direction}`) ?? [],
    revisions: revisions.map(({ month: at, state, change, since, ledgerIndex }) => ({
      month: at,
      state,
      change,
      since,
      at: times.get(ledgerIndex) ?? null,
      ledgerIndex,
    })),
  };
}
