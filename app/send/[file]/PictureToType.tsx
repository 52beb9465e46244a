import type { Api } from "#server/api/request";
import type { Wrong } from "../../_parts/Form";
import { Frame } from "../../_parts/Frame";
import { LogPicture } from "../../_parts/LogPicture";
import { TakeBack } from "../../_parts/TakeBack";
import { momentInWords } from "../../_words/days";
import type { Me } from "../../asking";
import type { Typed } from "../typing";
import { TypingGrid } from "./TypingGrid";
import styles from "./TypingGrid.module.css";

interface Props {
  readonly me: Me;
  readonly log: Awaited<ReturnType<Api["logs"]["file"]>>;
  /** name of the site it is of */
  readonly site: string;
  readonly lines: number;
  readonly typed: Typed | null;
  readonly wrong: Wrong;
}

/** A picture that waits to be typed, beside the grid to type it into. */
export function PictureToType({ me, log, site, lines, typed, wrong }: Props) {
  const name = log.name ?? log.code;
  return (
    <Frame title={`Type ${name}`} here="send" me={me}>
      <h1>
        {log.typed.length === 0 ? "Waiting to be typed: " : "Typed: "}
        <bdi>{name}</bdi>
      </h1>
      <p>
        {log.code}, a picture of a log of {site}, arrived {momentInWords(log.arrivedAt)} and kept as it came. Nothing is
        read from a picture: somebody types what stands in it.
      </p>
      {log.typed.length === 0 ? null : (
        <p>
          What was typed from it:{" "}
          {log.typed.map(({ file, code }, at) => (
            <span key={file}>
              {at === 0 ? "" : ", "}
              <a href={`/send/${file}`}>{code}</a>
            </span>
          ))}
          . What is typed now becomes another log; a batch that is in both is counted once.
        </p>
      )}
      {log.state === "withdrawn" ? (
        <p>It was taken back, so nothing can be typed from it.</p>
      ) : (
        <div className={styles.beside}>
          <div className={styles.picture}>
            <LogPicture file={log.file} kind={log.picture ?? ""} name={name} />
          </div>
          <TypingGrid file={log.file} lines={lines} typed={typed} wrong={wrong} />
        </div>
      )}
      {log.state === "withdrawn" ? null : <TakeBack file={log.file} />}
    </Frame>
  );
}
