import { redirect } from "next/navigation";
import { plusMonths } from "#server/terms/days";
import { FigureStrips } from "../_parts/FigureStrips";
import { Second } from "../_parts/Form";
import form from "../_parts/Form.module.css";
import { Frame } from "../_parts/Frame";
import { MonthChoice } from "../_parts/MonthChoice";
import { counted, monthInWords } from "../_words/days";
import { METHOD_WORDS } from "../_words/methods";
import { signedIn } from "../asking";
import { monthAsked } from "./monthsAsked";
import styles from "./page.module.css";

interface Props {
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

/** All sites in one month; a site lead has only one, and goes straight there. */
export default async function SitesPage({ searchParams }: Props) {
  const asked = await searchParams;
  const { api, me } = await signedIn("/sites");
  if (me.site !== null) redirect(`/sites/${me.site}`);
  const sites = await api.sites.list();
  const today = sites[0]?.today ?? new Date().toISOString().slice(0, 10);
  const month = monthAsked(asked) ?? plusMonths(today.slice(0, 7), -1);
  const figures = await api.figures.all({ from: month, to: month });
  const strips = figures.map((one) => {
    const site = sites.find(({ code }) => code === one.code);
    return {
      key: `${one.code} ${one.method}`,
      title: site?.name ?? one.code,
      note: `${one.code}, ${METHOD_WORDS[one.method ?? site?.method ?? "other"]}`,
      href: `/sites/${one.code}`,
      figures: one,
    };
  });
  strips.sort((a, b) => a.title.localeCompare(b.title, "en"));
  return (
    <Frame title={`Sites in ${monthInWords(month)}`} here="sites" me={me}>
      <h1>
        {counted(sites.length, "site")} in {monthInWords(month)}
      </h1>
      <form className={styles.month} method="get" action="/sites">
        <MonthChoice today={today} chosen={month.slice(5)} year={month.slice(0, 4)} label="Month" needed />
        <p className={form.buttons}>
          <Second>Show this month</Second>
          {me.role === "officer" ? <a href="/sites/new">Open a site</a> : null}
          <a href="/files">Everything that was sent</a>
        </p>
      </form>
      {sites.length === 0 ? (
        <p>
          There is no site yet.{" "}
          {me.role === "officer" ? <a href="/sites/new">Open the first one</a> : "An officer opens the first one."}
        </p>
      ) : (
        <FigureStrips strips={strips} of="Site, by name" />
      )}
    </Frame>
  );
}
