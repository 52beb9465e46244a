import type { SiteOverTime } from "#server/jobs/siteOverTime";
import { Scrolling } from "../../_parts/Scrolling";
import { monthInWords } from "../../_words/days";
import styles from "./page.module.css";
import { type TestLine, testLines } from "./testLines";

const NAMES: Record<TestLine["test"], string> = { crush: "Crush test", crisp: "Puffed and crisp" };

/** Crush and crisp tests as they were logged. They tell how a load felt, and nothing of how dry or safe it is. */
export function Tests({ tests }: { readonly tests: SiteOverTime["tests"] }) {
  const lines = testLines(tests);
  return (
    <section className={styles.part} aria-labelledby="tests">
      <h2 id="tests">Crush and crisp tests, as logged</h2>
      {lines.length === 0 ? (
        <p>No test was logged. A column “crush test” or “crisp” with pass or fail is read.</p>
      ) : (
        <Scrolling label="Tests as logged, in batches">
          <table className={styles.tests}>
            <caption>In batches. A test tells how a load felt, and not how dry it is.</caption>
            <thead>
              <tr>
                <th scope="col">Month</th>
                <th scope="col">Test</th>
                <th scope="col">Pass</th>
                <th scope="col">Fail</th>
                <th scope="col">Not tested</th>
                <th scope="col">Nothing said</th>
              </tr>
            </thead>
            <tbody>
              {lines.map(({ month, test, pass, fail, notTested, unsaid }) => (
                <tr key={`${month} ${test}`}>
                  <th scope="row">{monthInWords(month)}</th>
                  <td>{NAMES[test]}</td>
                  <td>{pass}</td>
                  <td>{fail}</td>
                  <td>{notTested}</td>
                  <td>{unsaid}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scrolling>
      )}
    </section>
  );
}
