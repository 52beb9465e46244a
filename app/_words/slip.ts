import type { Slip } from "#server/terms/slip";

/** The sending slip in one line, short enough for a text message. */
export function slipLine(slip: Slip): string {
  const { rows, code, months } = slip;
  const when = months.length === 0 ? "" : ` ${months.length === 1 ? months[0] : `${months[0]} to ${months.at(-1)}`}:`;
  const masses =
    slip.freshKg === null
      ? ""
      : ` ${kg(slip.freshKg)} kg fresh${slip.driedKg === null ? "" : `, ${kg(slip.driedKg)} kg dried`};`;
  const held = rows.held === 0 ? "" : `, ${rows.held} need your answer`;
  const toCome = slip.driedToCome === 0 ? "" : `, ${slip.driedToCome} dried to come`;
  return `${code}${when}${masses} ${rows.counted} of ${rows.rows} rows counted${held}${toCome}.`;
}

function kg(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toFixed(1);
}
