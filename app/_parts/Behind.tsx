import { BEHIND } from "../_words/behind";

/** Says that signals are told as they were recorded before the last logs came; nothing where they are up to date. */
export function Behind({ behind }: { readonly behind: boolean }) {
  return behind ? <p role="status">{BEHIND}</p> : null;
}
