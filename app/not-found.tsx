import { Frame } from "./_parts/Frame";
import { NothingHereWords } from "./_parts/NothingHereWords";

/** For addresses that lead nowhere. It travels with every page, so it knows nobody and asks nothing. */
export default function NoSuchAddress() {
  return (
    <Frame title="There is nothing here" me={null} width="column">
      <NothingHereWords />
    </Frame>
  );
}
