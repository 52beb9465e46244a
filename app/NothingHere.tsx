import { answerNothingHere } from "#server/api/request";
import { Frame } from "./_parts/Frame";
import { NothingHereWords } from "./_parts/NothingHereWords";
import { meOrNobody } from "./asking";

/** The page for what does not exist and for what this person may not see: the same in both cases, with status 404. */
export async function NothingHere() {
  answerNothingHere();
  return (
    <Frame title="There is nothing here" me={await meOrNobody()} width="column">
      <NothingHereWords />
    </Frame>
  );
}
