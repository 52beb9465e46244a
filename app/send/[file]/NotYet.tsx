import { Frame } from "../../_parts/Frame";
import { TakeBack } from "../../_parts/TakeBack";
import type { Me } from "../../asking";
import { CutShort } from "./CutShort";
import { UnderWay } from "./UnderWay";
import type { NotYet } from "./waitedFor";

interface Props {
  readonly me: Me;
  readonly log: Parameters<typeof CutShort>[0]["log"] & { readonly name: string | null; readonly code: string };
  readonly waited: NotYet;
  /** what the address asked, to be asked again */
  readonly query: string;
}

/** A log that is not read or counted yet: how far it is, that it was stopped, or what cannot be done with it. */
export function NotYetRead({ me, log, waited, query }: Props) {
  const { file } = log;
  const name = log.name ?? log.code;
  const underWay = "progress" in waited;
  return (
    <Frame title={name} here="send" me={me} width="column">
      <h1>
        {underWay ? "Under way: " : "Not done: "}
        <bdi>{name}</bdi>
      </h1>
      {underWay ? <UnderWay file={file} progress={waited.progress} query={query} /> : null}
      {"stopped" in waited ? <CutShort log={log} again={`/send/${file}?${query}`} /> : null}
      {"complaint" in waited ? (
        <>
          <p role="alert">
            <strong>{waited.complaint}</strong>
          </p>
          <p>
            Nothing was changed by it. <a href={`/send/${file}`}>Look at the log without these answers</a>.
          </p>
        </>
      ) : null}
      {underWay || log.takenBack !== null ? null : <TakeBack file={file} />}
    </Frame>
  );
}
