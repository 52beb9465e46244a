/** The rows of a raw statement: the two drivers wrap them differently. */
export function rowsOf<T>(answer: unknown): T[] {
  if (Array.isArray(answer)) return [...answer] as T[];
  if (answer !== null && typeof answer === "object" && "rows" in answer && Array.isArray(answer.rows))
    return answer.rows as T[];
  throw new Error("a driver answered with something that holds no rows");
}
