import { Submit } from "../../_parts/Form";
import { counted } from "../../_words/days";

interface Props {
  readonly file: string;
  readonly soFar: { readonly loads: number; readonly of: number };
}

/** How far a log is taken back that was not taken back to the end, and how to go on. */
export function TakeRestBack({ file, soFar: { loads, of } }: Props) {
  return (
    <form method="post" action={`/files/${file}/withdraw`}>
      <p>
        It is large, so it is taken back part by part, and that was not done to the end. So far {counted(loads, "load")}{" "}
        of {of.toLocaleString("en-GB")} {loads === 1 ? "is" : "are"} taken back; the others still count. Nothing can be
        counted of it any more, and the same log can come again once all of it is taken back.
      </p>
      <p>
        <Submit>Take the rest back</Submit>
      </p>
    </form>
  );
}
