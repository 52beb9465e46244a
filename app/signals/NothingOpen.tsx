import type { Inbox } from "#server/terms/signalTold";
import { monthInWords } from "../_words/days";
import type { Me } from "../asking";

/** No story waits: what that means, and what to do next. */
export function NothingOpen({ inbox, me }: { readonly inbox: Inbox; readonly me: Me }) {
  const send = me.role === "auditor" ? null : <a href="/send">Send a log</a>;
  if (inbox.watchedTo === null)
    return (
      <>
        <p>
          Nothing is watched yet. A site is watched once its logs hold twelve days with a value; until then its days
          only teach.
        </p>
        {send === null ? null : <p>{send}</p>}
      </>
    );
  return (
    <p>
      To the end of {monthInWords(inbox.watchedTo)} nothing changed that chance would not explain, or all of it is
      answered. The next logs will be looked at as they arrive.{" "}
      {me.site === null ? (
        <a href="/signals/accepted">How soon would a change be found?</a>
      ) : (
        <a href={`/sites/${me.site}`}>Look at the site over time</a>
      )}
    </p>
  );
}
