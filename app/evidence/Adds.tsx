import type { Account } from "#server/jobs/evidence";
import { counted } from "../_words/days";
import styles from "./page.module.css";
import { Sum } from "./Sum";

/** That nothing is lost between logs, rows, batches and tables; where two counts differ, that is said as well. */
export function Adds({ account: { rows, logs, batches } }: { readonly account: Account }) {
  const standing = logs.all - logs.notCounted - logs.takenBack;
  const remarks = [
    ...(rows.takenBack === 0 ? [] : [`The logs taken back had ${counted(rows.takenBack, "row")} more.`]),
    rows.onSlips === null
      ? "Of a log of the programme only the rows that may be seen here are in the sum."
      : `The sending slips name ${counted(rows.onSlips, "row")}${same(rows.onSlips === rows.rows)}`,
    `The table of batches has ${counted(batches.listed, "line")}${same(batches.listed === batches.here)}`,
  ];
  return (
    <>
      <div className={styles.adds}>
        <Sum
          title="Logs that speak of these months"
          parts={[
            { count: standing, says: "counted" },
            { count: logs.notCounted, says: "here, not counted yet" },
            { count: logs.takenBack, says: "taken back" },
          ]}
          whole={{ count: logs.all, says: "logs in all" }}
        />
        <Sum
          title="Rows of the logs that are counted"
          parts={[
            { count: rows.counted, says: "counted" },
            { count: rows.held, says: "need an answer" },
            { count: rows.setAside, says: "not a batch: heading, total, empty or note" },
          ]}
          whole={{ count: rows.rows, says: "rows in these logs" }}
        />
        <Sum
          title="Batches of these months"
          parts={[
            { count: batches.usable, says: "with both weights" },
            { count: batches.here - batches.usable, says: "without one of them" },
          ]}
          whole={{ count: batches.here, says: "batches here, by the sums that figures rest on" }}
        />
      </div>
      <ul>
        {remarks.map((remark) => (
          <li key={remark}>{remark}</li>
        ))}
      </ul>
    </>
  );
}

function same(is: boolean): string {
  return is ? ", the same number." : ": that is another number. Ask the operator to run verify.";
}
