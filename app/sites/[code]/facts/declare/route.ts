import { daysOfMonth } from "#server/terms/days";
import { goBack } from "../../../../note";
import { asSignedIn, complaintOf, textsOf } from "../../../../posted";
import { monthAsked } from "../../../monthsAsked";

interface Context {
  readonly params: Promise<{ readonly code: string }>;
}

/** Records closed days, a month without production, or that one of them is taken back. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { code } = await params;
    const here = `/sites/${code}/facts`;
    const typed = textsOf(await request.formData());
    const declaration = declared(typed);
    if (declaration === null)
      return goBack(request, here, { typed, wrong: { from: "Choose the days, the last one not before the first." } });
    try {
      await api.sites.declare({ site: code, declarations: [declaration] });
      return goBack(request, here, { told: { done: doneInWords(typed) } });
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, here, { typed, wrong: { from: sentence } });
    }
  });
}

function doneInWords({ back, accept }: Readonly<Record<string, string>>): string {
  if (back === "yes") return "It is taken back.";
  return accept === "yes" ? "It is accepted: these days are not owed." : "It is declared.";
}

function declared(typed: Readonly<Record<string, string>>) {
  const { kind, key = "", from = "", to = "", reason = "", back, accept } = typed;
  if (kind === "nothing-produced") {
    const month = monthAsked(typed);
    const days = back === "yes" ? { from, to } : month === null ? null : daysOfMonth(month);
    return days === null ? null : { kind: "nothing-produced" as const, ...days, value: back === "yes" ? null : {} };
  }
  if (from === "" || to < from) return null;
  const value = back === "yes" ? null : { reason, accepted: accept === "yes" };
  return { kind: "closed" as const, key: back === "yes" || accept === "yes" ? key : from, from, to, value };
}
