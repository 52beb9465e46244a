import type { Api } from "#server/api/request";
import { Submit } from "../../_parts/Form";
import { counted } from "../../_words/days";
import { TakeRestBack } from "./TakeRestBack";

interface Props {
  readonly log: Awaited<ReturnType<Api["logs"]["file"]>>;
  /** where it is looked at again, with the same month and answers */
  readonly again: string;
}

/** What stands of a log whose reading or counting was stopped, and how to go on. */
export function CutShort({ log: { file, state, soFar, takenBack }, again }: Props) {
  if (takenBack !== null) return <TakeRestBack file={file} soFar={takenBack} />;
  if (soFar !== null)
    return (
      <>
        <p>
          {soFar.again
            ? "It was counted before and is counted again part by part, and not all parts are in. What is not in yet counts as before. So far "
            : "It is large, so it is counted part by part, and not all parts are in. So far "}
          {counted(soFar.counted, "row of it counts", "rows of it count")} {soFar.again ? "anew " : ""}and{" "}
          {counted(soFar.held, "row waits", "rows wait")} for an answer, in {counted(soFar.parts, "part")}.
        </p>
        {soFar.byCommand ? (
          <p>
            Send the same file again, with the command that it was sent with, and it goes on after the last part;
            nothing is counted twice. Or take it back below, and nothing of it counts.
          </p>
        ) : (
          <form method="post" action={`/send/${file}/answers`}>
            <p>
              Count the rest, and it goes on after the last part, with the answers that it was begun with; nothing is
              counted twice. Or take it back below, and nothing of it counts.
            </p>
            <p>
              <Submit name="next" value="rest">
                Count the rest
              </Submit>
            </p>
          </form>
        )}
        <p>
          <a href={`/files/${file}`}>Its rows so far</a>
        </p>
      </>
    );
  return (
    <>
      <p role="status">
        It was stopped.{" "}
        {state === "counted"
          ? "What was counted of it before stays as it was."
          : "The log is kept as it came, and nothing of it counts."}
      </p>
      <p>
        <a href={again}>Read it again</a>
        {state === "counted" ? (
          <>
            , or see its <a href={`/slip/${file}`}>sending slip</a>
          </>
        ) : null}
        .
      </p>
    </>
  );
}
