"use client";

import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import type { MonthFigures } from "#server/jobs/figures";
import type { PublishedSince } from "#server/jobs/publishedSince";
import { Field, Second } from "../_parts/Form";
import { MonthSheet } from "../_parts/MonthSheet";
import { SincePublished } from "../_parts/SincePublished";
import { knownInWords } from "../_words/published";
import styles from "./MonthKnown.module.css";
import { Procedures, useTRPC } from "./Procedures";

interface Props {
  readonly site: string;
  readonly month: string;
  readonly today: string;
  /** the day, or the records, of knowledge in the address; null: today */
  readonly known: string | null;
  /** what the server found for it */
  readonly months: readonly MonthFigures[];
  readonly published: readonly PublishedSince[];
}

/** A month's sheet with the day of knowledge beside it. Without script the form asks for the page anew. */
export function MonthKnown(props: Props) {
  return (
    <Procedures>
      <Known {...props} />
    </Procedures>
  );
}

function Known({ site, month, today, known: first, months, published }: Props) {
  const trpc = useTRPC();
  const [known, setKnown] = useState(first);
  const input = { site, from: month, to: month, ...(known === null ? {} : { asOf: known }) };
  const later = { placeholderData: keepPreviousData, enabled: known !== first } as const;
  const asked = useQuery({ ...trpc.figures.site.queryOptions(input), ...later });
  const since = useQuery({ ...trpc.figures.sincePublished.queryOptions(input), ...later });
  const shown = known === first ? months : (asked.data ?? months);
  const [stands] = known === first ? published : (since.data ?? []);

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
          {(given) => (
            <input
              {...given}
              type="date"
              max={today}
              defaultValue={known === null || known.startsWith("record-") ? "" : known}
            />
          )}
        </Field>
        <p>
          <Second>Show it so</Second>
        </p>
        <p role="status">
          {statusOf(
            known,
            known !== first && (asked.isFetching || since.isFetching),
            (asked.isError || since.isError) && known !== first,
          )}
        </p>
      </form>
      {stands === undefined ? null : (
        <SincePublished published={stands} known={known} severalDryers={shown.length > 1} />
      )}
      <MonthSheet months={shown} />
    </>
  );
}

function statusOf(known: string | null, asking: boolean, failed: boolean): string {
  if (asking) return "Asking …";
  if (failed) return "It could not be asked. Look at the line and try again.";
  return `${knownInWords(known)}.`;
}
