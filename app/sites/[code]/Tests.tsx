import type { SiteOverTime } from "#server/jobs/siteOverTime";
import { Scrolling } from "../../_parts/Scrolling";
import styles from "./page.module.css";
import { shortMonth } from "./shortMonth";
import { type TestLine, testLines } from "./testLines";

const NAMES: Record<TestLine["test"], string> = { crush: "Crush test", crisp: "Puffed and crisp" };

/** Crush and crisp tests as they were logged. They tell how a load felt, and nothing of how dry or safe it is. */
export function Tests({ tests }: { readonly tests: SiteOverTime["tests"] }) {
  const lines = testLines(tests);
  const tested = [...new Set(lines.map(({ test }) => test))];
  return (
    <section className={styles.part} aria-labelledby="tests">
      <h2 id="tests">Crush and crisp tests, as logged</h2>
      {lines.length === 0 ? (
        <p>No test was logged. A column “crush test” or “crisp” with pass or fail is read.</p>
      ) : (
        tested.map((test) => (
          <Scrolling key={test} label={`${NAMES[test]}, in batches`}>
            <table className={styles.tests}>
              <caption>{NAMES[test]}, in batches</caption>
              <thead>
                <tr>
                  {["Month", "Pass", "Fail", "Not tested", "Nothing said"].map((name) => (
                    <th key={name} scope="col">
                      {name}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {lines
                  .filter((line) => line.test === test)
                  .map(({ month, pass, fail, notTested, unsaid }) => (
                    <tr key={month}>
                      <th scope="row">{shortMonth(month)}</th>
                      <td>{pass}</td>
                      <td>{fail}</td>
                      <td>{notTested}</td>
                      <td>{unsaid}</td>
                    </tr>
                  ))}
              </tbody>
            </table>
          </Scrolling>
        ))
      )}
      {lines.length === 0 ? null : <p className={styles.read}>A test tells how a load felt, and not how dry it is.</p>}
    </section>
  );
}
