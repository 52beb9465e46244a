import { LogPicture } from "./LogPicture";

interface Props {
  readonly file: string;
  readonly kind: string;
  readonly name: string;
  readonly typed: readonly { readonly file: string; readonly code: string }[];
  readonly mayType: boolean;
}

/** A picture of a log, with the logs that were typed from it. */
export function PictureOf({ file, kind, name, typed, mayType }: Props) {
  return (
    <>
      {typed.length === 0 ? <p>Waiting to be typed: nothing of it counts yet.</p> : <p>What was typed from it:</p>}
      <ul>
        {typed.map((log) => (
          <li key={log.file}>
            <a href={`/files/${log.file}`}>{log.code}, row by row</a>
          </li>
        ))}
      </ul>
      {mayType ? (
        <p>
          <a href={`/send/${file}`}>Type what stands in it</a>
        </p>
      ) : null}
      <LogPicture file={file} kind={kind} name={name} />
    </>
  );
}
