import { dawnClock } from "#server/terms/headings/dawnClock";
import { plain } from "#server/terms/headings/plain";

/** What a time in words says: surely one minute after midnight, or one of several. */
export type DawnRead = { readonly minute: number } | { readonly either: readonly number[] };

/** Dawn is at six. */
export const DAWN = 6 * 60;
const HALF_DAY = 12 * 60;
const DAY = 24 * 60;

const NUMBERS = new Map(dawnClock.numbers.flatMap((names, at) => names.map((name) => [plain(name), at + 1] as const)));
const PARTS = new Map(dawnClock.parts.flatMap((part) => part.words.map((word) => [plain(word), part] as const)));
const SPELLED = [...NUMBERS.keys()].sort((a, b) => b.length - a.length).join("|");
const TIME = new RegExp(
  `^(?:${list(dawnClock.hour)}) (?<hour>\\d{1,2}|${SPELLED})` +
    `(?: (?<minute>[0-5]\\d)| (?<half>${list(dawnClock.half)})| (?<quarter>${list(dawnClock.quarter)})| (?<less>${list(dawnClock.quarterLess)}))?` +
    `(?: (?:ya )?(?<part>${[...PARTS.keys()].join("|")}))?$`,
);

/**
 * Reads a time that counts its hours from dawn; null for any other text.
 *
 * In words ("saa mbili", "saa tatu na nusu asubuhi") that is how the language counts. With figures alone ("saa 2:30") both
 * clocks are in use, and so are two halves of the day at twelve: then both are offered.
 */
export function readDawnClock(text: string): DawnRead | null {
  const found = TIME.exec(plain(text))?.groups;
  if (found === undefined) return null;
  const isSpelled = NUMBERS.has(found.hour ?? "");
  const hour = NUMBERS.get(found.hour ?? "") ?? Number(found.hour);
  if (hour < 1 || hour > 12) return null;
  const past = found.half ? 30 : found.quarter ? 15 : found.less ? -15 : Number(found.minute ?? 0);
  const byDay = (hour % 12) * 60 + DAWN + past;
  const both = [byDay, (byDay + HALF_DAY) % DAY];
  const part = PARTS.get(found.part ?? "");
  if (part !== undefined) return inPart(both, part);
  if (!isSpelled) return { either: [byDay, byDay - DAWN] };
  return hour === 12 ? { either: both } : { minute: byDay };
}

/** The one of both halves of the day that lies in its named part; where none does, hours from midnight may be meant. */
function inPart(both: readonly number[], { from, to }: { readonly from: number; readonly to: number }): DawnRead {
  const [fitting, second] = both.filter((minute) =>
    [minute, minute + DAY].some((one) => one >= from * 60 && one < (to + 1) * 60),
  );
  return fitting !== undefined && second === undefined ? { minute: fitting } : { either: both };
}

function list(words: readonly string[]): string {
  return words.map(plain).join("|");
}
