/** What no database holds in a text: the zero byte, and one half of a pair of code units without the other. */
const NO_TEXT = /[\0\p{Surrogate}]/gu;
const IN_ITS_PLACE = "\uFFFD";

/**
 * What came from outside, with every text in it, names of fields too, as one that can be stored: what no text can hold
 * becomes the replacement character. Bytes and everything else that is no plain list or record stay as they are.
 */
export function textsOnly(value: unknown): unknown {
  if (typeof value === "string") return value.replace(NO_TEXT, IN_ITS_PLACE);
  if (Array.isArray(value)) return value.map(textsOnly);
  if (!isRecord(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, part]) => [name.replace(NO_TEXT, IN_ITS_PLACE), textsOnly(part)]),
  );
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  if (typeof value !== "object" || value === null) return false;
  const made = Object.getPrototypeOf(value);
  return made === Object.prototype || made === null;
}
