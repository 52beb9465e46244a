interface Place {
  readonly sheet: string;
  readonly row: number;
}

/** How many rows of a log a page shows. */
export const ON_A_PAGE = 200;

/** The name of a row on the page of its log. */
export function rowAnchor({ sheet, row }: Place): string {
  return encodeURIComponent(`${sheet}!${row}`);
}

/** The address of a row on the page of its log; `at` is its place among all rows, from 1. */
export function rowHref(file: string, place: Place & { readonly at: number }): string {
  const page = Math.ceil(place.at / ON_A_PAGE);
  return `/files/${file}${page > 1 ? `?page=${page}` : ""}#${rowAnchor(place)}`;
}
