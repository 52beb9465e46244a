import type { SiteRow } from "#server/jobs/comparison";
import { type Asked, addressOf } from "./asked";
import styles from "./page.module.css";

interface Props {
  readonly asked: Asked;
  readonly parts: readonly (readonly SiteRow[])[];
  /** the part that is shown, from 0 */
  readonly shown: number;
}

/** Where in a long list the page stands, and the way to its other parts; each named by its first and last site. */
export function Parts({ asked, parts, shown }: Props) {
  if (parts.length < 2) return null;
  return (
    <nav className={styles.parts} aria-label="Parts of the list">
      <ol>
        {parts.map((rows, at) => (
          <li key={rows[0]?.site}>
            <a href={addressOf(asked, { part: at + 1 })} aria-current={at === shown ? "page" : undefined}>
              <bdi>{rows[0]?.name}</bdi> to <bdi>{rows.at(-1)?.name}</bdi>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
