const LETTERS: Readonly<Record<string, string>> = { œ: "oe", æ: "ae", ß: "ss", ø: "o", "№": " no ", "#": " no " };

/**
 * Words without what people write differently: lower case, no accents, no punctuation, single spaces.
 *
 * "N° de fournée (kg)" becomes "no de fournee kg".
 */
export function plain(text: string): string {
  if (/^[A-Za-z]+$/.test(text)) return text.toLowerCase();
  return text
    .normalize("NFD")
    .replace(/\p{M}+/gu, "")
    .toLowerCase()
    .replace(/\bn\s*[°º]/gu, " no ")
    .replace(/[œæßø№#]/gu, (letter) => LETTERS[letter] ?? letter)
    .replace(/[^\p{L}\p{N}%°]+/gu, " ")
    .trim();
}
