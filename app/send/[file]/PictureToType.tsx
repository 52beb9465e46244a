import type { Api } from "#server/api/request";
import type { Wrong } from "../../_parts/Form";
import { Frame } from "../../_parts/Frame";
import { Scrolling } from "../../_parts/Scrolling";
import { TakeBack } from "../../_parts/TakeBack";
import { momentInWords } from "../../_words/days";
import type { Me } from "../../asking";
import type { Typed } from "../typing";
import { TypingGrid } from "./TypingGrid";
import styles from "./TypingGrid.module.css";

/** The plain element: the page server's own would fetch the picture itself, and has not signed in. */
const Img = "img";

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
          <Picture file={log.file} kind={log.picture} name={name} />
          <TypingGrid file={log.file} lines={lines} typed={typed} wrong={wrong} />
        </div>
      )}
      {log.state === "withdrawn" ? null : <TakeBack file={log.file} />}
    </Frame>
  );
}

function Picture({ file, kind, name }: { readonly file: string; readonly kind: string | null; readonly name: string }) {
  const address = `/files/${file}/picture`;
  if (kind === "pdf")
    return (
      <p>
        <a href={address}>Open the PDF beside this page</a>, and type from it.
      </p>
    );
  return (
    <figure className={styles.picture}>
      <div className={styles.frame}>
        <Scrolling label="The picture">
          <Img src={address} alt={`The log ${name} as it was photographed`} />
        </Scrolling>
      </div>
      <figcaption>
        <a href={address}>The picture alone, as large as it is</a>
        {kind === "heic" ? " (HEIC: some browsers can only save it)" : ""}
      </figcaption>
    </figure>
  );
}
