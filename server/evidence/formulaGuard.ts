/** What makes spreadsheets take a text for a formula when it comes first, plain or full-width. Line breaks count as well. */
const TRIGGERS = "=+\\-@\\t\\r\\n\\0＝＋－＠";
const WOULD_RUN = new RegExp(`^'*[${TRIGGERS}]`);
const WAS_GUARDED = new RegExp(`^'+[${TRIGGERS}]`);

/**
 * A text that no spreadsheet runs as a formula: one apostrophe in front where it would, and where it could be taken for
 * a text that has been guarded already. Everything else stays as it is.
 *
 * For texts alone; a number such as -11.5 must stay one. Quotation marks are no defence: "=2+2" in quotes is reckoned.
 * Follows OWASP ASVS 5.0, V1.2.10; carriage return, line feed and the full-width signs are added.
 *
 * guarded("=2+2") // "'=2+2"; guarded("'=2+2") // "''=2+2"; guarded("O'Hara") // "O'Hara"
 */
export function guarded(text: string): string {
  return WOULD_RUN.test(text) ? `'${text}` : text;
}

/** What stood there before `guarded`: exactly one apostrophe is taken off, and only in front of a trigger. */
export function unguarded(text: string): string {
  return WAS_GUARDED.test(text) ? text.slice(1) : text;
}
