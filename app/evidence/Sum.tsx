import styles from "./page.module.css";

interface Props {
  readonly title: string;
  readonly parts: readonly { readonly count: number; readonly says: string }[];
  /** counted by itself, not added up from the parts */
  readonly whole: { readonly count: number; readonly says: string };
}

/** Some counts written as the sum that they are; where they do not add up, that is said. */
export function Sum({ title, parts, whole }: Props) {
  const added = parts.reduce((sum, { count }) => sum + count, 0);
  return (
    <table className={styles.sum}>
      <caption>{title}</caption>
      <tbody>
        {parts.map(({ count, says }) => (
          <tr key={says}>
            <td>{count.toLocaleString("en-GB")}</td>
            <th scope="row">{says}</th>
          </tr>
        ))}
        <tr>
          <td>{whole.count.toLocaleString("en-GB")}</td>
          <th scope="row">
            {whole.says}
            {added === whole.count ? "" : `: the parts come to ${added}, which must not be`}
          </th>
        </tr>
      </tbody>
    </table>
  );
}
