import type { ReactNode } from "react";
import type { Role } from "#server/terms/person";
import { waitingSignals } from "../asking";
import styles from "./Frame.module.css";

export type Corner = "compare" | "signals" | "sites" | "send" | "evidence" | "people" | "how" | "account";

interface Reader {
  readonly name: string;
  readonly role: Role;
  readonly site: string | null;
}

interface Props {
  readonly title: string;
  readonly here?: Corner;
  /** null: nobody has signed in */
  readonly me: Reader | null;
  /** one column for those who act, wide for those who compare */
  readonly width?: "column" | "wide";
  readonly children: ReactNode;
}

/** What stands around every page: where one is, where one can go, who one is. */
export function Frame({ title, here, me, width = "wide", children }: Props) {
  return (
    <>
      <title>{`${title} · Evendry`}</title>
      <a className={styles.skip} href="#main">
        To the page itself
      </a>
      <header className={styles.head}>
        <a className={styles.mark} href="/">
          Evendry
        </a>
        {me === null ? null : <Ways here={here} me={me} />}
      </header>
      <main id="main" tabIndex={-1} className={`${styles.main} ${styles[width]}`}>
        {children}
      </main>
      <footer className={styles.foot}>
        <p>
          Evendry reports what was logged. It never says that a batch is safe, dry enough or compliant.{" "}
          {me === null ? null : <a href="/how">How it is worked out</a>}
        </p>
      </footer>
    </>
  );
}

async function Ways({ here, me }: { readonly here: Corner | undefined; readonly me: Reader }) {
  const waiting = await waitingSignals();
  const ways: { corner: Corner; href: string; says: string }[] = [
    ...(me.site === null ? [{ corner: "compare" as const, href: "/compare", says: "Compare" }] : []),
    me.site === null
      ? { corner: "sites", href: "/sites", says: "Sites" }
      : { corner: "sites", href: `/sites/${me.site}`, says: "My site" },
    { corner: "signals", href: "/signals", says: "Signals" },
    ...(me.role === "auditor" ? [] : [{ corner: "send" as const, href: "/send", says: "Send a log" }]),
    { corner: "evidence", href: "/evidence", says: "Evidence" },
    ...(me.role === "officer" ? [{ corner: "people" as const, href: "/people", says: "People" }] : []),
  ];
  return (
    <>
      <nav className={styles.ways} aria-label="Pages">
        <ul>
          {ways.map(({ corner, href, says }) => (
            <li key={corner}>
              <a href={href} aria-current={corner === here ? "page" : undefined}>
                {says}
                {corner === "signals" && waiting > 0 ? (
                  <span className={styles.waiting}>
                    {waiting}
                    <span className={styles.heard}> waiting</span>
                  </span>
                ) : null}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <form className={styles.me} method="post" action="/sign-out">
        <a href="/password" aria-current={here === "account" ? "page" : undefined}>
          <bdi>{me.name}</bdi>
        </a>
        <button type="submit">Sign out</button>
      </form>
    </>
  );
}
