import type { FactValue } from "#server/terms/facts";
import { type AsKnownOn, type Figure, type NoFigure, type RestsOn, type Unit, unknown } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import { byDay, countOf, type DayPart } from "./period";

/** What every figure of a period carries besides its value. */
export interface About {
  readonly asKnownOn: AsKnownOn;
  /** what is counted: batches, loads or days, as the site's schedule has it */
  readonly of: Exclude<RestsOn["of"], "fuel windows">;
  /** how many were owed; null where nobody declared it */
  readonly owed: number | null;
  /** what the missing ones could have been at the most; null where nobody declared it */
  readonly plausible: FactValue<"plausible"> | null;
  /** loads that one of `of` stands for: 1, or a day's planned loads where days are counted */
  readonly loadsEach: number;
  /** why no batch at all is here: "nothing-logged", "not-open", "nothing-produced-declared", …; null when some are */
  readonly nothing: NoFigure | null;
}

/** How many a figure rests on: those of `parts`, of those that are here, of those owed. */
export function restsOn(sums: readonly DaySum[], parts: readonly DayPart[], about: About): RestsOn {
  return {
    used: countOf(parts, about.of),
    here: countOf(byDay(sums, "here"), about.of),
    owed: about.owed,
    of: about.of,
  };
}

/** A figure without a value: the period's own reason when no batch is here at all, else the reason given. */
export function none(why: NoFigure, unit: Unit, rests: RestsOn, about: About): Figure {
  return unknown({ why: about.nothing ?? why, unit, restsOn: rests, asKnownOn: about.asKnownOn });
}
