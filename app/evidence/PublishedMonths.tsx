import type { PublishedCount } from "#server/jobs/publishedOf";
import { counted, monthInWords } from "../_words/days";
import { monthsPublishedInWords, whenPublished } from "../_words/published";
import styles from "./page.module.css";

interface Props {
  readonly published: { readonly months: readonly PublishedCount[]; readonly more: boolean };
  readonly sites: readonly { readonly code: string; readonly name: string | null }[];
  readonly known: string | undefined;
}

/** Which published months are known otherwise by now, each with its way to both values. */
export function PublishedMonths({ published: { months, more }, sites, known }: Props) {
  const names = new Map(sites.map(({ code, name }) => [code, name ?? code]));
  const differing = months.filter(({ differs }) => differs > 0);
  const suffix = known === undefined ? "" : `?known=${known}`;
  return (
    <>
      <p>{monthsPublishedInWords(months, more)}</p>
      {months.length === 0 ? (
        <p>
          Whoever runs Evendry freezes a month's figures with <code>npm run evendry publish</code>; what is learnt later
          then stands beside them here.
        </p>
      ) : null}
      {differing.length === 0 ? null : (
        <ul className={styles.otherwise}>
          {differing.map(({ site, month, differs, ...published }) => (
            <li key={`${site} ${month}`}>
              <a href={`/sites/${site}/${month}${suffix}#published`}>
                <bdi>{names.get(site) ?? site}</bdi>, {monthInWords(month)}
              </a>
              : {counted(differs, "figure")}, published on {whenPublished(published)}
            </li>
          ))}
        </ul>
      )}
      {more ? <p>More was published of these months. Take one site or fewer months to see the rest.</p> : null}
    </>
  );
}
