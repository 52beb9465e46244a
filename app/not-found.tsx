import { Frame } from "./_parts/Frame";
import { meOrNobody } from "./asking";

export default async function NothingHere() {
  return (
    <Frame title="There is nothing here" me={await meOrNobody()} width="column">
      <h1>There is nothing here</h1>
      <p>The address may be mistyped, or what stood here is not yours to see.</p>
      <p>
        <a href="/">Go to the first page</a>
      </p>
    </Frame>
  );
}
