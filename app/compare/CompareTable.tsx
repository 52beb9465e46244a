import type { SignalTold } from "#server/api/signals";
import type { MonthCompared, SiteRow } from "#server/jobs/comparison";
import { columnAxis } from "../_charts/columnAxis";
import { COMPARED_WORDS } from "../_words/comparison";
import { monthInWords } from "../_words/days";
import { numberInWords } from "../_words/figures";
import { FUEL_WORDS } from "../_words/fuel";
import { METHOD_WORDS } from "../_words/methods";
import { COLUMNS, scalesOf, signalOf } from "./arranged";
import { CompareCell } from "./CompareCell";
import styles from "./page.module.css";

interface Props {
  readonly rows: readonly SiteRow[];
  /** the whole list of which these rows are a part; every part has its scales */
  readonly all: readonly SiteRow[];
  readonly compared: MonthCompared;
  readonly signals: readonly SignalTold[];
  /** what the address of a site's month ends in */
  readonly suffix: string;
}

const UNITS = {
  "record-usable": "share",
  "dry-yield": "kg/kg",
  "fuel-per-driven-off": "MJ/kg",
  "fresh-per-pan-hour": "kg/pan-hour",
} as const;

/** One row a site, one column a measure; on a narrow screen each row is a card with the same parts. */
export function CompareTable({ rows, all, compared, signals, suffix }: Props) {
  const scales = scalesOf(all, compared);
  return (
    <table className={styles.table}>
      <caption>
        Each dot is a site's figure of {monthInWords(compared.month)} with its 95 % interval; all dots of a column share
        its scale.
      </caption>
      <thead>
        <tr>
          <th scope="col">Site</th>
          {COLUMNS.map((measure) => {
            const scale = scales[measure];
            return (
              <th key={measure} scope="col">
                {COMPARED_WORDS[measure].name} <small>{COMPARED_WORDS[measure].unit}</small>
                {scale === null ? null : columnAxis(scale, (value) => numberInWords(value, UNITS[measure]))}
              </th>
            );
          })}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={`${row.site} ${row.method}`}>
            <th scope="row">
              <a href={`/sites/${row.site}/${compared.month}${suffix}`}>
                <bdi>{row.name}</bdi>
              </a>
              <small>{dryerOf(row)}</small>
            </th>
            {COLUMNS.map((measure) => (
              <CompareCell
                key={measure}
                row={row}
                measure={measure}
                compared={compared}
                scale={scales[measure]}
                signal={signalOf(row, measure, signals)}
                signals={signals}
                suffix={suffix}
              />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function dryerOf({ method, fuel }: SiteRow): string {
  const dryer = method === null ? "dryer not declared" : METHOD_WORDS[method];
  return `${dryer}, ${fuel === null ? "main fuel not declared" : FUEL_WORDS[fuel]}`;
}
