import { Scrolling } from "../_parts/Scrolling";
import type { Chart } from "./chart";
import styles from "./charts.module.css";

/** A chart on a page: the picture, what it shows in words, and the same as a table. */
export function ChartFigure({ chart }: { readonly chart: Chart }) {
  const { picture, long, table } = chart;
  return (
    <figure className={styles.figure}>
      {picture}
      <figcaption>{long}</figcaption>
      <details>
        <summary>Show as a table</summary>
        <Scrolling label={table.caption}>
          <table className={styles.table}>
            <caption>{table.caption}</caption>
            <thead>
              <tr>
                {table.head.map((name) => (
                  <th key={name} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map(([name = "", ...cells]) => (
                <tr key={`${name} ${cells.join()}`}>
                  <th scope="row">{name}</th>
                  {cells.map((cell, at) => (
                    <td key={table.head[at + 1]}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </Scrolling>
      </details>
    </figure>
  );
}
