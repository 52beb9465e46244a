import type { Quantity } from "#server/terms/batch";

/** Plain decimals as text, so that what a log says is kept to its last digit. */

const PLAIN = /^[1-9]\d*(?:\.\d*[1-9])?$/;

/** "007.50" is "7.5", "-0" is "0". The text must be digits with at most one point. */
export function canonical(text: string): string {
  if (PLAIN.test(text)) return text;
  const negative = text.startsWith("-");
  let digits = negative || text.startsWith("+") ? text.slice(1) : text;
  if (digits.includes(".")) digits = digits.replace(/\.?0*$/, "");
  digits = digits.replace(/^0+(?=\d)/, "");
  if (digits === "" || digits === "0") return "0";
  if (digits.startsWith(".")) digits = `0${digits}`;
  return negative ? `-${digits}` : digits;
}

interface Scaled {
  readonly digits: bigint;
  readonly places: number;
}

function scaled(exact: string): Scaled {
  const point = exact.indexOf(".");
  if (point === -1) return { digits: BigInt(exact), places: 0 };
  return { digits: BigInt(exact.slice(0, point) + exact.slice(point + 1)), places: exact.length - point - 1 };
}

function written({ digits, places }: Scaled): string {
  const negative = digits < 0n;
  const text = String(negative ? -digits : digits).padStart(places + 1, "0");
  const whole = text.slice(0, text.length - places);
  const rest = places === 0 ? "" : `.${text.slice(text.length - places)}`;
  return canonical(`${negative ? "-" : ""}${whole}${rest}`);
}

/** Exact product: "3300" times "0.001" is "3.3". */
export function times(a: string, b: string): string {
  if (b === "1") return a;
  const left = scaled(a);
  const right = scaled(b);
  return written({ digits: left.digits * right.digits, places: left.places + right.places });
}

/** Exact sum: "12" plus "0.4" is "12.4". */
export function plus(a: string, b: string): string {
  const left = scaled(a);
  const right = scaled(b);
  const places = Math.max(left.places, right.places);
  const raised = (of: Scaled) => of.digits * 10n ** BigInt(places - of.places);
  return written({ digits: raised(left) + raised(right), places });
}

export function quantity(exact: string): Quantity {
  return { exact, value: Number(exact) };
}

/** The shortest plain decimal of a spreadsheet's number; 15 digits and no exponent, as a spreadsheet shows it. */
export function decimalOf(value: number): string {
  const text = String(value);
  if (/^-?\d+(\.\d+)?$/.test(text)) return canonical(text);
  const [mantissa = "0", power = "0"] = text.split("e");
  const places = Number(power);
  const shift = places < 0 ? `0.${"0".repeat(-places - 1)}1` : `1${"0".repeat(places)}`;
  return times(canonical(mantissa), shift);
}
