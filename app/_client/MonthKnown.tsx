"use client";

import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import type { MonthFigures } from "#server/jobs/figures";
import { Field, Second } from "../_parts/Form";
import { MonthSheet } from "../_parts/MonthSheet";
import { dayInWords } from "../_words/days";
import styles from "./MonthKnown.module.css";
import { Procedures, useTRPC } from "./Procedures";

interface Props {
  readonly site: string;
  readonly month: string;
  readonly today: string;
  /** the day of knowledge in the address; null: today */
  readonly known: string | null;
  /** what the server found for it */
  readonly months: readonly MonthFigures[];
}

/** A month's sheet with the day of knowledge beside it. Without script the form asks for the page anew. */
export function MonthKnown(props: Props) {
  return (
    <Procedures>
      <Known {...props} />
    </Procedures>
  );
}

function Known({ site, month, today, known: first, months }: Props) {
  const trpc = useTRPC();
  const [known, setKnown] = useState(first);
  const asked = useQuery({
    ...trpc.figures.site.queryOptions({ site, from: month, to: month, ...(known === null ? {} : { asOf: known }) }),
    placeholderData: keepPreviousData,
    enabled: known !== first,
  });
  const shown = known === first ? months : (asked.data ?? months);

  function ask(event: FormEvent<HTMLFormElement>) {
    const day = new FormData(event.currentTarget).get("known");
    if (typeof day !== "string") return; // the browser then asks for the page anew
    event.preventDefault();
    setKnown(day === "" ? null : day);
    history.replaceState(null, "", `/sites/${site}/${month}${day === "" ? "" : `?known=${day}`}`);
  }

  return (
    <>
      <form className={styles.known} method="get" action={`/sites/${site}/${month}`} onSubmit={ask}>
        <Field id="known" label="As known on">
          {(given) => <input {...given} type="date" max={today} defaultValue={known ?? ""} />}
        </Field>
        <p>
          <Second>Show it so</Second>
        </p>
        <p role="status">{statusOf(known, known !== first && asked.isFetching, asked.isError && known !== first)}</p>
      </form>
      <MonthSheet months={shown} />
    </>
  );
}

function statusOf(known: string | null, asking: boolean, failed: boolean): string {
  if (asking) return "Asking …";
  if (failed) return "It could not be asked. Look at the line and try again.";
  return known === null ? "As known today." : `As known on ${dayInWords(known)}.`;
}
