/** Rows in the groups of their sites, in the order in which they come. */
export function groups<T extends { readonly site: number }>(rows: readonly T[]): Map<number, T[]> {
  const sites = new Map<number, T[]>();
  for (const row of rows) {
    const mine = sites.get(row.site);
    if (mine) mine.push(row);
    else sites.set(row.site, [row]);
  }
  return sites;
}

/** Looks up the rows of a site; none where it has none. */
export function bySite<T extends { readonly site: number }>(rows: readonly T[]): (site: number) => readonly T[] {
  const sites = groups(rows);
  return (site) => sites.get(site) ?? [];
}
