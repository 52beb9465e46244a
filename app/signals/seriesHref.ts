import type { StreamTold } from "#server/terms/signalTold";

/** In an address, what the sites of a way of drying do together; no code of a site begins so. */
export const TOGETHER = "_";

/** The page with all days of a series; `suffix`: as known on which day. */
export function seriesHref({ site, method, measure }: StreamTold, suffix = ""): string {
  return `/signals/series/${site ?? TOGETHER}/${method}/${measure}${suffix}`;
}
