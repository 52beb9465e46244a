const DAY = 86_400_000;
const HEADINGS = "Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes";

const dayOf = (at: number) => new Date(Date.UTC(2003, 0, 1) + Math.floor(at / 10) * DAY).toISOString().slice(0, 10);
const fresh = (at: number) => (3 + ((at * 37) % 97) / 50).toFixed(2);
const dried = (at: number) => ((3 + ((at * 37) % 97) / 50) * 0.31).toFixed(2);
const load = (at: number, weights: string) => `${dayOf(at)},${(at % 10) + 1},${(at % 3) + 1},${weights},22`;

/** Logs in which nearly every row leaves the same doubt, by what it is: so many rows, ten loads a day. */
export const DOUBTFUL: Readonly<Record<string, { readonly headings: string; readonly row: (at: number) => string }>> = {
  "dried weights in grams": {
    headings: HEADINGS,
    row: (at) => load(at, `${fresh(at)},${(Number(dried(at)) * 1000).toFixed(0)}`),
  },
  "more out than in": { headings: HEADINGS, row: (at) => load(at, `${dried(at)},${fresh(at)}`) },
  "weights that are none": { headings: HEADINGS, row: (at) => load(at, `abc${at},x${at}`) },
  "a total under each load": {
    headings: HEADINGS,
    row: (at) => (at % 2 === 0 ? load(at, `${fresh(at)},${dried(at)}`) : `Total,,,${fresh(at)},${dried(at)},22`),
  },
  "headings above each load": {
    headings: HEADINGS,
    row: (at) => (at % 2 === 0 ? load(at, `${fresh(at)},${dried(at)}`) : HEADINGS),
  },
  "several loads under one weight": {
    headings: HEADINGS,
    row: (at) => load(at, at % 2 === 0 ? `${fresh(at)},` : `${fresh(at)},${(2 * Number(dried(at))).toFixed(2)}`),
  },
  "weights on lines of their own": {
    headings: "Date,Fresh (kg),Dried (kg),Minutes",
    row: (at) => (at % 2 === 0 ? `${dayOf(at)},${fresh(at)},,` : `${dayOf(at)},,${dried(at)},22`),
  },
  "the same, all on one day": {
    headings: "Date,Fresh (kg),Dried (kg),Minutes",
    row: (at) => (at % 2 === 0 ? `2003-05-05,${fresh(at)},,` : `2003-05-05,,${dried(at)},22`),
  },
  "one row again and again": { headings: HEADINGS, row: () => "2003-05-05,1,1,3.10,1.02,22" },
  "ends before its starts": {
    headings: "Date,Batch no,Fresh (kg),Dried (kg),Start,End",
    row: (at) => `${dayOf(at)},${(at % 10) + 1},${fresh(at)},${dried(at)},${16 + (at % 7)}:10,09:${10 + (at % 40)}`,
  },
};

export function doubtfulLog(name: string, rows: number): string {
  const { headings, row } = DOUBTFUL[name]!;
  return [headings, ...Array.from({ length: rows }, (_, at) => row(at))].join("\n");
}
