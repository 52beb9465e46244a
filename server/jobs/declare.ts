import { lockHead, lockSite } from "#db/queries/ledger";
import type { Changes } from "#db/queries/recorded";
import { factsOf, nextSite, type Site, siteByCode } from "#db/queries/sites";
import { daySumsOf } from "#db/queries/sums";
import type { Tx } from "#db/store";
import { type Fact, type FactKind, factValue } from "#server/terms/facts";
import { type Act, type Corridor, type Nothing, record } from "./record";
import { refuelAll } from "./refuel";
import { resum } from "./resum";
import { siteDay } from "./siteDay";

/** One declaration as a person makes it. */
export interface Declaration {
  readonly kind: FactKind;
  readonly key?: string | undefined;
  readonly from: string;
  readonly to?: string | null | undefined;
  /** null takes the declaration for these days back */
  readonly value: unknown;
}

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** Opens a site with what is known about it. Answers undefined when the code is taken. */
export async function openSite(
  corridor: Corridor,
  code: string,
  declarations: readonly Declaration[],
): Promise<Site | undefined> {
  return record<Site | undefined>(corridor, async (tx): Promise<Act<Site | undefined> | Nothing<Site | undefined>> => {
    await lockHead(tx);
    if ((await siteByCode(tx, code)) !== undefined) return { nothing: undefined };
    const site = { id: await nextSite(tx), code };
    const declaredOn = siteDay(corridor.clock(), [], site.id);
    return {
      command: "open-site",
      site: site.id,
      about: { code },
      changes: { sites: [site], facts: declarations.map((one) => stored(site.id, one, declaredOn)) },
      answer: () => site,
    };
  });
}

/** Records what was declared about a site (0: the programme), and rebuilds the sums that rest on it. */
export async function declare(corridor: Corridor, site: number, declarations: readonly Declaration[]): Promise<void> {
  await record<void>(corridor, async (tx) => {
    await lockSite(tx, site);
    const facts = await factsOf(tx, [site], EVERYTHING);
    const declaredOn = siteDay(corridor.clock(), facts, site);
    const added = declarations.map((one) => stored(site, one, declaredOn));
    const after = [...facts, ...added.map((fact) => ({ ...fact, ledgerIndex: EVERYTHING }) as Fact)].filter(
      (fact) => fact.site === site,
    );
    return {
      command: "declare",
      site,
      changes: { facts: added, ...(await consequences(tx, site, declarations, after)) },
      answer: () => undefined,
    };
  });
}

function stored(site: number, { kind, key, from, to, value }: Declaration, declaredOn: string) {
  return {
    site,
    kind,
    key: key ?? "",
    from,
    to: to ?? null,
    value: value === null ? null : factValue(kind, value),
    declaredOn,
  };
}

/** Scale steps are part of day sums and fuel spans, cylinders and shared kitchens of fuel spans; all else is read when asked. */
async function consequences(
  tx: Tx,
  site: number,
  declarations: readonly Declaration[],
  facts: readonly Fact[],
): Promise<Changes> {
  const steps = declarations.filter(({ kind }) => kind === "scale-step");
  const days = new Set<string>();
  for (const { from, to } of steps) {
    for (const { day } of await daySumsOf(tx, [site], from, to ?? "9999-12-31", EVERYTHING)) days.add(day);
  }
  const sums = await resum(tx, site, days, new Map(), facts);
  const fuel = steps.length > 0 || declarations.some(({ kind }) => kind === "cylinder" || kind === "kitchen-shares");
  return { ...sums, ...(fuel ? await refuelAll(tx, site, facts) : {}) };
}
