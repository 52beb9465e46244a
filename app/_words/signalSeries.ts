import type { FoundAfter, HeldTold, ReferenceTold, StreamTold } from "#server/terms/signalTold";
import { counted, dayInWords } from "./days";
import { pointWords } from "./signalPage";

/** "learning, 5 of 12 days". */
export function stateOfReference({ state, days, learn }: Pick<ReferenceTold, "state" | "days" | "learn">): string {
  return state === "learning" ? `learning, ${days} of ${learn} days` : state;
}

/** Where the parameters come from; defaults are said to be defaults, and why. */
export function heldFromInWords({ from, streams, points }: HeldTold): string {
  if (from === "streams")
    return `Worked out from ${counted(streams, "series", "series")} of this way of drying and measure, ${points.toLocaleString("en-GB")} days in all.`;
  return `Defaults, because ${counted(streams, "series", "series")} with ${points.toLocaleString("en-GB")} days ${streams === 1 ? "is" : "are"} too few to tell them from the data. Defaults lie on the careful side: rather a change found later than a false alarm more.`;
}

/** Each parameter with what it is and its value. */
export function parametersOf(
  held: HeldTold,
): { readonly name: string; readonly tells: string; readonly value: string }[] {
  const { omega, rho, d0, lambda, clamp, edge, spikeAt } = held;
  return [
    {
      name: "Share of a day’s luck that no mass removes (ω)",
      tells: "A day of twice the mass is not half as uncertain: fire, sand and larvae are the same for all its loads.",
      value: shown(omega, 2),
    },
    { name: "Likeness of neighbouring days (ρ)", tells: "Good days come in runs.", value: shown(rho, 2) },
    {
      name: "Days’ worth of knowing the spread beforehand (d₀)",
      tells: "What other series of the kind say about how much days differ; 0 when nothing is known.",
      value: shown(d0, 1),
    },
    {
      name: "Weight of the newest day (λ of the EWMA)",
      tells: "What a day counts in recent days taken together.",
      value: shown(lambda, 2),
    },
    {
      name: "A day counts for no more than",
      tells: "So that one wrong record raises nothing.",
      value: `${shown(clamp, 1)} spreads`,
    },
    {
      name: "Limit of recent days taken together",
      tells: "Beyond it a signal is told; it follows from the false alarms accepted.",
      value: `± ${shown(edge, 3)} spreads`,
    },
    {
      name: "A single day is asked about beyond",
      tells: "A question about the record, not a signal.",
      value: spikeAt === null ? "not yet known" : `± ${shown(spikeAt, 2)} spreads`,
    },
  ];
}

/** "A change of 10 % would be found after about 9 days with a value."; `known`: the day whose knowledge is shown. */
export function foundInWords(
  { change, days, toldOn, calendarDays, calendarDaysWeekly }: FoundAfter,
  stream: Pick<StreamTold, "site" | "measure">,
  known?: string,
): string {
  const { one, many } = pointWords(stream);
  const size = `A change of ${percent(change)}`;
  if (days === null) return `${size} would not be found within a year of ${many}: daily watching does not see it.`;
  const found = `${size} would be found after about ${counted(days, one, many)}`;
  if (toldOn === null || calendarDays === null) return `${found}.`;
  const weekly =
    calendarDaysWeekly !== null && calendarDays - calendarDaysWeekly >= 7
      ? ` Sent every week, it would be told in ${calendarDaysWeekly} days.`
      : "";
  const [begun, after] = known === undefined ? ["today", "from now"] : [`on ${dayInWords(known)}`, "later"];
  return `${found}. Begun ${begun}, and with logs coming when they are due, it would be told on ${dayInWords(toldOn)}, ${calendarDays} days ${after}.${weekly}`;
}

/** Why nothing is said of how soon a change would be found. */
export function noDelaysInWords(
  running: Pick<ReferenceTold, "state" | "days" | "learn"> | undefined,
  isTogether: boolean,
): string {
  if (isTogether) return "Not worked out for what all do together: it is told once most of them have moved.";
  if (running === undefined) return "Not worked out for this series, or not for these months: choose later ones.";
  return running.state === "learning"
    ? `Its reference is ${stateOfReference(running)}: until then nothing can be told.`
    : "No day of these months is here to work it out from: choose months with days.";
}

export function percent(share: number): string {
  return `${(share * 100).toLocaleString("en-GB", { maximumFractionDigits: 1 })} %`;
}

function shown(value: number, digits: number): string {
  return value.toLocaleString("en-GB", { minimumFractionDigits: digits, maximumFractionDigits: digits });
}
