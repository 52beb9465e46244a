import { counted, listInWords, monthInWords, monthName } from "./days";

/** A month of the programme in numbers, as far as the sentence needs it. */
export interface MonthSaid {
  readonly owing: number;
  readonly sent: number;
  readonly filedNothing: number;
  readonly freshKg: number | null;
  readonly driedKg: number | null;
  readonly tooFew: readonly string[];
  /** sites of which a signal stands */
  readonly changed: readonly string[];
  /** not all that was sent has been looked through for change */
  readonly behind: boolean;
}

/**
 * The month in a sentence that a person could say aloud.
 *
 * "May: nine of ten sites sent their logs; 4,120 kg in, 1,340 kg dried; by its end two sites had changed, one has too few records to tell."
 */
export function programmeInWords(month: string, said: MonthSaid): string {
  const parts = [logs(said), masses(said), changes(said)].filter((part) => part !== null);
  return `${monthName(month.slice(5))}: ${parts.join("; ")}.`;
}

function logs({ owing, sent, filedNothing }: MonthSaid): string {
  const filed = filedNothing === 0 ? "" : `, ${number(filedNothing)} filed that nothing was produced`;
  if (owing === 0) return `no site owed a log${filed}`;
  if (owing === 1)
    return `${sent === 1 ? "the one site that owed a log sent it" : "the one site that owed a log has not sent it"}${filed}`;
  const who =
    sent === 0
      ? `none of ${number(owing)} sites`
      : sent === owing
        ? `all ${number(owing)} sites`
        : `${number(sent)} of ${number(owing)} sites`;
  return `${who} sent ${sent === 1 ? "its log" : "their logs"}${filed}`;
}

function masses({ freshKg, driedKg }: MonthSaid): string | null {
  if (freshKg === null) return null;
  const dried = driedKg === null ? "no dried weight yet" : `${kg(driedKg)} dried`;
  return `${kg(freshKg)} in, ${dried}`;
}

function changes({ sent, changed, tooFew, behind }: MonthSaid): string | null {
  if (sent === 0 && changed.length === 0) return null;
  const soFar = behind ? "by its end, as far as looked through," : "by its end";
  const said = `${soFar} ${changed.length === 0 ? "no site" : sites(changed.length)} had changed`;
  if (tooFew.length === 0) return said;
  const few = changed.length === 0 ? sites(tooFew.length) : number(tooFew.length);
  return `${said}, ${few} ${tooFew.length === 1 ? "has" : "have"} too few records to tell`;
}

/** Which moment a month's changes are told of, beside the list of those that wait today. */
export function whichChangedInWords(month: string): string {
  return `Changed are sites with a signal that stood at the end of ${monthInWords(month)}, answered since or not.`;
}

function sites(count: number): string {
  return `${number(count)} ${count === 1 ? "site" : "sites"}`;
}

function kg(value: number): string {
  return `${value.toLocaleString("en-GB", { maximumFractionDigits: 0 })} kg`;
}

const SMALL = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

function number(count: number): string {
  return SMALL[count] ?? count.toLocaleString("en-GB");
}

/** "Sent nothing yet: Palmgrove and Red Kiln." Null where every site that owed has sent. */
export function silentInWords(names: readonly string[]): string | null {
  if (names.length === 0) return null;
  return `${names.length > 8 ? counted(names.length, "site") : listInWords(names)} ${names.length === 1 ? "has" : "have"} sent nothing for this month yet.`;
}
