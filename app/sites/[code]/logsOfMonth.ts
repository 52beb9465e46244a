import type { Api } from "#server/api/request";

type Log = Awaited<ReturnType<Api["logs"]["list"]>>[number];

/** The logs of a site that brought something for a month, as their sending slips say. */
export async function logsOfMonth(api: Api, site: string, month: string): Promise<Log[]> {
  const logs = (await api.logs.list({ site })).filter(({ state }) => state === "counted");
  const months = await Promise.all(logs.map(async ({ file }) => (await api.logs.slip({ file })).months));
  return logs.filter((_, at) => months[at]?.includes(month) === true);
}
