import type { Reading, RowRead, Unreadable } from "#server/terms/row";
import { reasonInWords, refusalInWords } from "./words";

/** A reading as `read --json` documents it. */
export function readingAsJson(reading: Reading | Unreadable) {
  if ("refused" in reading)
    return { refused: { code: reading.refused, detail: reading.detail, text: refusalInWords(reading) } };
  return {
    format: reading.format,
    tables: reading.tables.map(({ sheet, headingRow, dayOrder, columns }) => ({
      sheet,
      headingRow,
      dayOrder,
      columns: columns.map(({ column, heading, meaning, unit, unitFrom, decimalMark, sure, why }) => ({
        column,
        heading,
        meaning,
        unit,
        unitFrom,
        decimalMark,
        sure: sure === "sure",
        how: sure,
        why,
      })),
    })),
    rows: reading.rows.map(rowAsJson),
    counts: reading.counts,
    questions: reading.questions,
    totals: reading.totals,
    notes: reading.notes,
  };
}

function rowAsJson({ sheet, row, fate, reasons, batch, fuel, driedOnly, site }: RowRead) {
  return {
    sheet,
    row,
    fate,
    reasons: reasons.map((reason) => ({
      code: reason.code,
      column: reason.at.column,
      text: reasonInWords(reason),
      cell: reason.text,
      ...(reason.choices === undefined ? {} : { choices: reason.choices }),
    })),
    ...(site === null ? {} : { site }),
    ...(batch === null
      ? {}
      : {
          batch: {
            day: batch.day,
            number: batch.number,
            pan: batch.pan,
            method: batch.method,
            grain: batch.grain,
            loads: batch.loads,
            freshKg: batch.fresh?.value ?? null,
            driedKg: batch.dried?.value ?? null,
            driedToCome: batch.driedToCome,
            driedOnly,
            minutes: batch.minutes?.value ?? null,
            startMinute: batch.startMinute,
            harvest: batch.harvest,
          },
        }),
    ...(fuel.length === 0 ? {} : { fuel }),
  };
}

/** The same for a person at the keyboard: what was understood, and every row that needs one. */
export function readingInWords(path: string, reading: Reading | Unreadable): string {
  if ("refused" in reading) return `${path}: ${refusalInWords(reading)}\n`;
  const { counts } = reading;
  const lines = [
    `${path}: ${counts.rows} rows = ${counts.counted} counted + ${counts.held} held + ${counts.setAside} set aside`,
  ];
  for (const table of reading.tables) {
    lines.push(`  ${table.sheet}, headings in row ${table.headingRow}:`);
    for (const { column, heading, meaning, unit, sure } of table.columns) {
      lines.push(
        `    ${column} "${heading}": ${meaning ?? "not recognised"}${unit === null ? "" : ` in ${unit}`}${sure === "asked" ? " (needs your answer)" : ""}`,
      );
    }
  }
  for (const { sheet, row, fate, reasons } of reading.rows) {
    if (fate === "held")
      for (const reason of reasons)
        lines.push(`  ${sheet} row ${row}${reason.at.column ?? ""}: ${reasonInWords(reason)}`);
  }
  return `${lines.join("\n")}\n`;
}
