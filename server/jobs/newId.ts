import { randomBytes } from "node:crypto";

/** Random digits an id, and bytes that are drawn from the system at once. */
const DIGITS = 15;
const DRAWN = 3_840;

let asked = 0;
/** the millisecond that ids say: a later one where more are asked for than can be counted in one */
let told = 0;
let begins = "";
let counted = 0;
let random = "";
let used = 0;

/**
 * A new UUID of version 7 (RFC 9562): it begins with the time, then a count within the millisecond (section 6.2, method
 * 1), so that ids follow each other as they are made and index pages fill in order.
 */
export function newId(now: Date | number = Date.now()): string {
  const time = Number(now);
  if (time !== asked) begin(time, time);
  else if (++counted > 0xfff) begin(time, told + 1);
  if (used === random.length) [random, used] = [randomBytes(DRAWN).toString("hex"), 0];
  const count = (0x1000 + counted).toString(16).slice(1);
  const id = `${begins}${count}-8${random.slice(used, used + 3)}-${random.slice(used + 3, used + DIGITS)}`;
  used += DIGITS;
  return id;
}

function begin(time: number, at: number): void {
  const digits = at.toString(16).padStart(12, "0");
  [asked, told, counted, begins] = [time, at, 0, `${digits.slice(0, 8)}-${digits.slice(8)}-7`];
}
