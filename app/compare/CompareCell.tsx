import type { SignalTold } from "#server/api/signals";
import type { Compared } from "#server/compare/entry";
import type { MonthCompared, SiteRow } from "#server/jobs/comparison";
import { dotCell } from "../_charts/dotCell";
import type { Scale } from "../_charts/scale";
import { stepMark } from "../_charts/stepMark";
import { COMPARED_WORDS, cellInWords, littleInWords, missingCount } from "../_words/comparison";
import { intervalInWords, numberInWords, restsOnInWords, valueInWords, whyNone } from "../_words/figures";
import { alikeInWords, changeInWords, sinceInWords } from "../_words/signals";
import styles from "./page.module.css";

interface Props {
  readonly row: SiteRow;
  readonly measure: Compared;
  readonly compared: MonthCompared;
  readonly scale: Scale | null;
  readonly signal: SignalTold | undefined;
  /** all that stand, those of sites together too */
  readonly signals: readonly SignalTold[];
  /** of addresses: as known on which day */
  readonly suffix: string;
}

/** One figure of a site: drawn among its like, and written beside it with what it rests on. */
export function CompareCell({ row, measure, compared, scale, signal, signals, suffix }: Props) {
  const cell = row.cells[measure];
  const { figure, little } = cell;
  const peers = compared.peers[cell.peers ?? -1] ?? null;
  const interval = intervalInWords(figure);
  const fuel = measure === "fuel-per-driven-off";
  return (
    <td>
      <span className={styles.column} aria-hidden="true">
        {COMPARED_WORDS[measure].name} <small>{COMPARED_WORDS[measure].unit}</small>
      </span>
      {scale === null
        ? null
        : dotCell(
            {
              figure,
              hollow: little !== null,
              scale,
              band: peers?.middle ?? null,
              peers: peers?.values ?? [],
              floor: fuel ? compared.floorMjPerKg : null,
              target: row.targets[measure]?.value ?? (measure === "record-usable" ? compared.usableMark : null),
            },
            cellInWords(cell, peers, measure),
          )}
      <span className={styles.words}>
        {figure.known ? (
          <>
            <strong>
              {measure === "dry-yield" || measure === "record-usable"
                ? valueInWords(figure.value, figure.unit)
                : numberInWords(figure.value, figure.unit)}
            </strong>
            {interval === null ? null : <span>({interval})</span>}
            <span>{restsOnInWords(figure.restsOn)}</span>
          </>
        ) : (
          <em>{whyNone(figure.why)}</em>
        )}
      </span>
      {fuel ? <BesideFuel row={row} /> : null}
      {measure === "record-usable" && figure.known ? <BesideRecord row={row} /> : null}
      {little === null ? null : <span className={styles.more}>{littleInWords(little, figure.restsOn.of)}</span>}
      {signal === undefined ? null : (
        <span className={styles.signal}>
          <a href={`/signals/${signal.id}${suffix}`}>
            {stepMark(signal.direction)} {changeInWords(signal)} {sinceInWords(signal)}
          </a>
          {signal.together ? `, ${alikeInWords(signal, signals)}` : ""}
        </span>
      )}
    </td>
  );
}

function BesideFuel({ row }: { readonly row: SiteRow }) {
  const { fuelPerDried, fuelPerFiringDay, loadsPerFiringDay } = row.beside;
  if (!fuelPerFiringDay.known) return null;
  return (
    <span className={styles.more}>
      {fuelPerDried.known ? `${valueInWords(fuelPerDried.value, "MJ/kg")} dried, ` : ""}
      {valueInWords(fuelPerFiringDay.value, "MJ/day")}
      {loadsPerFiringDay.known ? ` of ${numberInWords(loadsPerFiringDay.value, "count")} loads` : ""}
    </span>
  );
}

function BesideRecord({ row }: { readonly row: SiteRow }) {
  const { recordHere } = row.beside;
  if (!recordHere.known || recordHere.restsOn.owed === null) return null;
  const { here, owed, of } = recordHere.restsOn;
  if (of === "fuel windows") return null;
  return here >= owed ? null : <span className={styles.more}>{missingCount(owed - here, of)}</span>;
}
