import type { callerOf } from "#server/api/router";
import type { DemoScenario } from "./generate";

/** The procedures of the house as the operator calls them. */
export type Api = ReturnType<typeof callerOf>;

export interface Loading {
  readonly demo: DemoScenario;
  /** the procedures at a time of the scenario's own */
  readonly apiAt: (clock: () => Date) => Api;
  /** nothing arrives later than this */
  readonly now: Date;
  readonly progress: (done: number, of: number, said: string) => void;
}

export interface DemoSignIn {
  readonly role: "officer" | "auditor" | "lead";
  readonly name: string;
  readonly password: string;
}

const PEOPLE = [
  { name: "Marisol Adeyemi", role: "officer" },
  { name: "Henrik Tanaka", role: "auditor" },
  { name: "Noor Arendt", role: "lead", site: "OJ" },
] as const;

/**
 * Loads the scenario by the doors that everybody uses: sites and people, then logs and declarations in the order of
 * their days. Answers with the one-time passwords of the people it added. Started again, it goes on where it stopped.
 */
export async function loadDemo(loading: Loading): Promise<DemoSignIn[]> {
  const signIns = await openDemo(loading);
  await sendDemo(loading);
  return signIns;
}

/**
 * The sites that are there from the beginning, and an officer, an auditor and a site lead with their one-time
 * passwords.
 */
export async function openDemo({ demo, apiAt }: Loading): Promise<DemoSignIn[]> {
  const api = apiAt(() => new Date(demo.startsOn));
  const first = demo.sites.map(({ at }) => at).sort()[0];
  for (const site of demo.sites) if (site.at === first) await openSite(api, site);
  const codes = new Set((await api.sites.list()).map(({ code }) => code));
  const known = new Set((await api.people.list()).map(({ name }) => name));
  const signIns: DemoSignIn[] = [];
  for (const person of PEOPLE) {
    if (known.has(person.name) || ("site" in person && !codes.has(person.site))) continue;
    const { password } = await api.people.add(person);
    signIns.push({ role: person.role, name: person.name, password });
  }
  return signIns;
}

/** Everything that happened in the scenario, one thing after the other; others are answered in between. */
export async function sendDemo({ demo, apiAt, now, progress }: Loading): Promise<void> {
  const steps = stepsOf(demo);
  for (const [done, step] of steps.entries()) {
    progress(done, steps.length, step.said);
    const at = step.at < now.toISOString() ? new Date(step.at) : now;
    await step.take(apiAt(() => at));
    await new Promise((resolve) => setTimeout(resolve));
  }
  progress(steps.length, steps.length, "everything is here");
}

interface Step {
  readonly at: string;
  readonly said: string;
  readonly take: (api: Api) => Promise<void>;
}

function stepsOf(demo: DemoScenario): Step[] {
  const steps: Step[] = [
    ...demo.sites.map((site) => ({ at: site.at, said: `${site.code} opens`, take: (api: Api) => openSite(api, site) })),
    ...demo.declared.map((one) => ({
      at: one.at,
      said: `${one.site} declares`,
      take: (api: Api) => declare(api, one),
    })),
    ...demo.logs.map((log) => ({
      at: log.sentOn,
      said: `${log.site} sends ${log.name}`,
      take: (api: Api) => sendLog(api, log),
    })),
    ...demo.publications.map((one) => ({
      at: one.at,
      said: `${one.month} of ${one.site} is published`,
      take: (api: Api) => publish(api, one),
    })),
    ...monthsSent(demo).map((month) => ({
      at: `${month}-${WATCHED_ON}T06:00:00.000Z`,
      said: "the logs are watched for change",
      take: (api: Api) => api.signals.watch(),
    })),
  ];
  return steps.sort((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)));
}

/** By this day of a month most logs of the month before are here; what comes later is watched with the next. */
const WATCHED_ON = "12";

/** The months in which logs were sent. */
function monthsSent({ logs }: DemoScenario): string[] {
  return [...new Set(logs.map(({ sentOn }) => sentOn.slice(0, 7)))].sort();
}

async function openSite(api: Api, { code, declarations }: DemoScenario["sites"][number]): Promise<void> {
  const there = await api.sites.list();
  if (there.some((site) => site.code === code)) return;
  await api.sites.open({ code, declarations: [...declarations] });
}

async function declare(api: Api, { site, declarations }: DemoScenario["declared"][number]): Promise<void> {
  const known = await api.sites.facts({ site });
  const isKnown = ({ kind, key = "", from }: (typeof declarations)[number]) =>
    known.some((fact) => fact.kind === kind && fact.key === key && fact.from === from);
  const unknown = declarations.filter((one) => !isKnown(one));
  if (unknown.length > 0) await api.sites.declare({ site, declarations: unknown });
}

async function sendLog(api: Api, { site, month, name, bytes }: DemoScenario["logs"][number]): Promise<void> {
  const sent = await api.logs.send({ site, period: month, name, bytes });
  if ("unreadable" in sent) throw new Error(`the log ${name} of ${site} cannot be read: ${sent.unreadable.refused}`);
}

async function publish(api: Api, { site, month }: DemoScenario["publications"][number]): Promise<void> {
  if ((await api.figures.published({ site, month })).length === 0) await api.figures.publish({ site, month });
}
