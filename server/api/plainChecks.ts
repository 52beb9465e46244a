import { z } from "zod";

/**
 * What the checker of inputs says, in plain words that follow the name of a field: "role must be one of officer, lead or
 * auditor". Where a check brings its own words, these stand.
 */
export function sayPlainly(issue: z.core.$ZodRawIssue): string | undefined {
  if (issue.code === "invalid_format")
    return ["guid", "uuid"].includes(issue.format) ? BROKEN_ID : "is not written as it must be";
  if (issue.code === "invalid_value") return `must be ${oneOf(issue.values)}`;
  if (issue.code === "invalid_type")
    return issue.input === undefined ? "is missing" : `must be ${KINDS[issue.expected] ?? "another kind of value"}`;
  if (issue.code === "too_small")
    return Number(issue.minimum) === 1 && issue.origin !== "number"
      ? "must not be empty"
      : `must be at least ${issue.minimum}${unitOf(issue.origin)}`;
  if (issue.code === "too_big") return `must be at most ${issue.maximum}${unitOf(issue.origin)}`;
  if (issue.code === "unrecognized_keys") return `is not known: ${issue.keys.join(", ")}`;
  return "is not as it must be";
}

/** A broken address, or one that was cut off on the way. */
const BROKEN_ID =
  "names nothing that is here; the address may have been cut off on the way. Open it from its list again";

const KINDS: Readonly<Record<string, string>> = {
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "yes or no",
  array: "a list",
  object: "a group of values",
  record: "a group of values",
};

function unitOf(origin: string): string {
  return { string: " characters", array: " of them", set: " of them" }[origin] ?? "";
}

function oneOf(values: readonly unknown[]): string {
  const words = values.map(String);
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `one of ${words.slice(0, -1).join(", ")} or ${last}`;
}

/** Everything that is wrong with an input, one sentence each. */
export function complaintsIn({ issues }: z.core.$ZodError): string {
  return issues
    .map(({ path, message }) => `${String(path.at(-1) ?? "").replaceAll(/\d+/g, "")} ${message}.`.trim())
    .join(" ");
}

z.config({ customError: sayPlainly });
