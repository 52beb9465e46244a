/** Something outside the program stands in its way. The message is one sentence for the person at the keyboard. */
export class CannotStart extends Error {
  override name = "CannotStart";
}
