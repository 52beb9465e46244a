import { knownThenAsked, monthsAsked } from "../sites/monthsAsked";

type Asked = Readonly<Record<string, string | undefined>>;

/** Which evidence an address asks for. `site` null: everything that the person may see. */
export interface Scope {
  readonly site: string | null;
  readonly from: string;
  readonly to: string;
  readonly known: string | undefined;
}

/** The scope of an address; a site lead has only the own site. */
export function scopeAsked(asked: Asked, ownSite: string | null, today: string): Scope {
  const site = ownSite ?? (asked.site === undefined || asked.site === "all" ? null : asked.site);
  return { site, ...monthsAsked(asked, today), known: knownThenAsked(asked) };
}

/** The address at which a scope, or a table of it, is found. */
export function scopeHref(path: string, { site, from, to, known }: Scope, more: Record<string, string> = {}): string {
  const query = { site: site ?? "all", from, to, ...(known === undefined ? {} : { known }), ...more };
  return `${path}?${new URLSearchParams(query)}`;
}
