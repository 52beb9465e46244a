import { redirect } from "next/navigation";
import { Account } from "../../_parts/Account";
import { AnswersGiven } from "../../_parts/AnswersGiven";
import { ColumnsRead } from "../../_parts/ColumnsRead";
import { Difference } from "../../_parts/Difference";
import { Frame } from "../../_parts/Frame";
import { LikeBefore } from "../../_parts/LikeBefore";
import { SetAside } from "../../_parts/SetAside";
import { SettledBy } from "../../_parts/SettledBy";
import { TakeBack } from "../../_parts/TakeBack";
import { dayInWords, momentInWords } from "../../_words/days";
import { refusalInWords } from "../../_words/problems";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { noteFor } from "../../note";
import { single } from "../../single";
import { unpackSaid } from "../said";
import { linesOf, unpackTyped } from "../typing";
import { NotYetRead } from "./NotYet";
import { PictureToType } from "./PictureToType";
import { ANSWERS, WhatNeedsYou } from "./WhatNeedsYou";
import { queryOf, waitedFor } from "./waitedFor";

interface Props {
  readonly params: Promise<{ readonly file: string }>;
  readonly searchParams: Promise<{
    readonly month?: string;
    readonly said?: string;
    readonly note?: string;
    readonly gone?: string;
    readonly why?: string;
    readonly whyWords?: string;
    readonly lines?: string;
    readonly typed?: string;
    readonly stopped?: string;
    /** it was asked to be taken back, and that lasted */
    readonly undone?: string;
  }>;
}

export default async function LookPage({ params, searchParams }: Props) {
  const { file } = await params;
  const asked = single(await searchParams);
  const { api, me } = await signedIn(`/send/${file}`);
  if (me.role === "auditor") return <NothingHere />;
  const log = await orNothing(api.logs.file({ file }));
  if (log === null) return <NothingHere />;
  const { wrong } = await noteFor(asked.note);
  const site = (await api.sites.list()).find(({ code }) => code === log.site);
  if (log.picture !== null)
    return (
      <PictureToType
        me={me}
        log={log}
        site={site?.name ?? log.site ?? "the programme"}
        lines={linesOf(asked.lines)}
        typed={unpackTyped(asked.typed)}
        wrong={wrong}
      />
    );
  const month = /^\d{4}-(0[1-9]|1[0-2])$/.test(asked.month ?? "") ? (asked.month ?? null) : log.period;
  const answers = unpackSaid(asked.said, log.answers) ?? log.answers;
  const look = { file, ...(month === null ? {} : { period: month }), ...(answers === null ? {} : { answers }) };
  const name = log.name ?? log.code;
  if (log.takenBack !== null) {
    const progress = await api.logs.progress({ file });
    const waited = progress === null ? ({ stopped: true } as const) : { progress };
    const now = progress === null ? await api.logs.file({ file }) : log;
    if (now.takenBack !== null) return <NotYetRead me={me} log={now} waited={waited} query="undone=yes" />;
    redirect(`/files/${file}`);
  }
  if (log.state === "withdrawn" && asked.undone !== undefined) redirect(`/files/${file}`);
  const waited = await waitedFor(api, log, look, asked.stopped !== undefined);
  if ("slip" in waited) redirect(`/slip/${file}`);
  if (!("reading" in waited)) return <NotYetRead me={me} log={log} waited={waited} query={queryOf(asked)} />;
  const { reading, difference } = waited;
  return (
    <Frame title={`What we understood of ${name}`} here="send" me={me} width="column">
      <h1>
        What we understood of <bdi>{name}</bdi>
      </h1>
      <p>
        {log.site === null ? "A log of the programme" : `A log of ${site?.name ?? log.site}`}, arrived{" "}
        {momentInWords(log.arrivedAt)} and kept as it came. {log.cameBy === "message" ? "It came by message" : ""}
        {log.cameBy === "message" && log.claimedAt !== null
          ? `, sent on ${dayInWords(log.claimedAt.slice(0, 10))} as the sender says`
          : ""}
        {log.cameBy === "message" ? ". " : ""}
        {log.typedFrom === null ? null : (
          <>
            It was typed from the picture <a href={`/send/${log.typedFrom.file}`}>{log.typedFrom.code}</a>.{" "}
          </>
        )}
        {log.state === "counted" ? (
          <>
            It was counted before: see its <a href={`/slip/${file}`}>sending slip</a>. Counted again with other answers,
            it takes the place of what it said before.
          </>
        ) : null}
        {log.state === "withdrawn" ? "It was taken back, so nothing of it counts." : null}
      </p>
      {"refused" in reading ? (
        <>
          <p role="alert">
            <strong>{refusalInWords(reading)}</strong>
          </p>
          <p>
            Nothing of it counts. <a href="/send">Send another file</a>.
          </p>
        </>
      ) : (
        <>
          <Account rows={withMatches(reading.counts, difference?.counts)} />
          <p>
            <a href={`/send/${file}/rows?${new URLSearchParams({ month: month ?? "", said: asked.said ?? "" })}`}>
              Every row, with what would become of it
            </a>
            {log.state === "withdrawn" ? null : (
              <>
                {" "}
                or go to <a href="#needs">what needs you</a>
              </>
            )}
          </p>
          {reading.tables.length === 0 ? null : (
            <>
              <h2>Its columns</h2>
              <LikeBefore like={reading.like} earlier={reading.earlier} />
            </>
          )}
          <ColumnsRead
            reading={reading}
            remembered={reading.remembered}
            form={log.state === "withdrawn" ? null : ANSWERS}
          />
          <SetAside rows={reading.rows} />
          {log.state === "withdrawn" ? null : (
            <AnswersGiven answers={reading.answers} remembered={reading.remembered} form={ANSWERS} />
          )}
          <SettledBy settled={log.settled} />
          {difference === null ? null : (
            <Difference
              difference={difference}
              form={ANSWERS}
              ticked={new Set((asked.gone ?? "").split(","))}
              said={{ why: asked.why ?? "", words: asked.whyWords ?? "" }}
            />
          )}
          {log.state === "withdrawn" ? null : (
            <WhatNeedsYou
              file={file}
              month={month}
              said={asked.said ?? ""}
              reading={reading}
              counted={log.state === "counted"}
              alsoAbove={(difference?.rows ?? []).some(
                ({ verdict, mayJoin }) => verdict === "doubtful" || mayJoin.length > 0,
              )}
              wrong={{ ...wrong, ...waited.wrong }}
            />
          )}
        </>
      )}
      {log.state === "withdrawn" ? null : <TakeBack file={file} />}
    </Frame>
  );
}

/** What would become of the rows, with those that a look at the loads that are here already holds. */
function withMatches<Counts extends { readonly counted: number; readonly held: number }>(
  counts: Counts,
  found: { readonly doubtful: number; readonly noLoad: number } | undefined,
): Counts {
  const waiting = Math.min(counts.counted, (found?.doubtful ?? 0) + (found?.noLoad ?? 0));
  return { ...counts, counted: counts.counted - waiting, held: counts.held + waiting };
}
