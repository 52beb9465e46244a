import type { TestCount } from "#db/queries/siteOverTime";

/** One test of one month, in batches. */
export interface TestLine {
  readonly month: string;
  readonly test: TestCount["test"];
  readonly pass: number;
  readonly fail: number;
  readonly notTested: number;
  /** the log says nothing of the test, which is not the same as not tested */
  readonly unsaid: number;
}

/** A line for each month and test of which anything was ever said in these months; a test nobody logs has none. */
export function testLines(counts: readonly TestCount[]): TestLine[] {
  const said = new Set(counts.filter(({ result }) => result !== null).map(({ test }) => test));
  const keys = [
    ...new Set(counts.filter(({ test }) => said.has(test)).map(({ month, test }) => `${month} ${test}`)),
  ].sort();
  return keys.flatMap((key) => {
    const own = counts.filter(({ month, test }) => `${month} ${test}` === key);
    const [first] = own;
    const of = (result: TestCount["result"]) => own.find((one) => one.result === result)?.batches ?? 0;
    if (first === undefined) return [];
    const { month, test } = first;
    return [{ month, test, pass: of("pass"), fail: of("fail"), notTested: of("not-tested"), unsaid: of(null) }];
  });
}
