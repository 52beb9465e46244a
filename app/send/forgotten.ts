import type { Said } from "#server/terms/answers";

/** Answers without those that a form takes back: "forget:cells June!C14", "forget:dayOrder ", or all of them. */
export function withoutForgotten(fields: Readonly<Record<string, string>>, before: Said | null): Said | null {
  if (before === null || fields.forgetAll === "yes") return null;
  const names = Object.keys(fields).filter((name) => name.startsWith("forget:"));
  if (names.length === 0) return before;
  const left = new Map<string, unknown>(Object.entries(before));
  for (const name of names) {
    const at = name.indexOf(" ");
    const [kind, place] = [name.slice("forget:".length, at), name.slice(at + 1)];
    const said = left.get(kind);
    if (Array.isArray(said))
      left.set(
        kind,
        said.filter((one) => one !== place),
      );
    else if (typeof said === "object" && said !== null)
      left.set(kind, Object.fromEntries(Object.entries(said).filter(([one]) => one !== place)));
    else left.delete(kind);
  }
  return Object.fromEntries([...left].filter(([, said]) => !isEmpty(said)));
}

function isEmpty(said: unknown): boolean {
  return typeof said === "object" && said !== null && Object.keys(said).length === 0;
}
