/** Days between the two counts of days that spreadsheets use: serial 0 of the 1904 system is 1462 of the 1900 system. */
export const FROM_1904 = 1462;

const DAY_MS = 86_400_000;
const HIGHEST = 2_958_466; // the day after 9999-12-31

/**
 * A day of the 1900 system as "YYYY-MM-DD", with " HH:MM" when it carries a time; null outside the years 1900 to 9999.
 *
 * Serial 60 is 1900-02-29, a day that never was and that the system counts all the same; 0 is written "1900-01-00".
 * Source: ECMA-376 part 1, 18.17.4.1. dayText(59) is "1900-02-28", dayText(61) "1900-03-01".
 */
export function dayText(serial: number): string | null {
  if (!(serial >= 0 && serial < HIGHEST)) return null;
  const seconds = Math.round(serial * 86_400);
  const day = Math.floor(seconds / 86_400);
  const rest = seconds - day * 86_400;
  const time = rest === 0 ? "" : ` ${clockText(rest)}`;
  if (day === 60) return `1900-02-29${time}`;
  if (day === 0) return `1900-01-00${time}`;
  const start = day < 60 ? Date.UTC(1899, 11, 31) : Date.UTC(1899, 11, 30);
  return new Date(start + day * DAY_MS).toISOString().slice(0, 10) + time;
}

/** A share of a day as "HH:MM" or "HH:MM:SS", to the nearest second; hours run on past 24. */
export function timeText(share: number): string {
  return clockText(Math.round(share * 86_400));
}

function clockText(seconds: number): string {
  const two = (part: number) => String(part).padStart(2, "0");
  const minutes = Math.floor(seconds / 60);
  const text = `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  return seconds % 60 === 0 ? text : `${text}:${two(seconds % 60)}`;
}

/** Serial of the 1900 system of "2006-02-01" or "2006-02-01T10:00:00"; share of a day of "10:00:00"; null for other texts. */
export function serialOf(text: string): { readonly kind: "day" | "time"; readonly value: number } | null {
  const found = /^(?:(\d{4})-(\d{2})-(\d{2}))?T?(?:(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?)?Z?$/.exec(text);
  if (found === null || (found[1] === undefined && found[4] === undefined)) return null;
  const [year, month, date, hours, minutes, seconds] = found.slice(1).map((part) => Number(part ?? 0));
  const share = (hours! * 3600 + minutes! * 60 + seconds!) / 86_400;
  if (found[1] === undefined) return { kind: "time", value: share };
  const utc = new Date(Date.UTC(year!, month! - 1, date!));
  if (utc.getUTCMonth() !== month! - 1 || utc.getUTCDate() !== date!) return null;
  const day = (utc.getTime() - Date.UTC(1899, 11, 30)) / DAY_MS;
  return day < 1 ? null : { kind: "day", value: (day < 61 ? day - 1 : day) + share };
}
