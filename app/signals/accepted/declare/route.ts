import { goBack } from "../../../note";
import { asSignedIn, complaintOf, textsOf } from "../../../posted";

const HERE = "/signals/accepted";
const MOST = 50;
const LEAST = 0.1;

/** Declares how many false alarms the programme accepts, from today on. */
export function POST(request: Request): Promise<Response> {
  return asSignedIn(async (api) => {
    const typed = textsOf(await request.formData());
    const { reading, perMonth = "" } = typed;
    if (reading !== "on-average" && reading !== "at-most-one-in-95-percent")
      return goBack(request, HERE, { typed, wrong: { reading: "Choose how the number is meant." } });
    const said = reading === "on-average" ? Number(perMonth.trim().replace(",", ".") || "none") : 1;
    if (!(said >= LEAST && said <= MOST))
      return goBack(request, HERE, {
        typed,
        wrong: { perMonth: `Write a number from ${LEAST} to ${MOST}, such as 1 or 0.5; “${perMonth}” is none.` },
      });
    const today = (await api.sites.list())[0]?.today ?? new Date().toISOString().slice(0, 10);
    try {
      await api.programme.declare({
        declarations: [{ kind: "false-alarms", from: today, value: { perMonth: said, reading } }],
      });
      return goBack(request, HERE, { told: { done: "It is recorded, and holds for the months to come." } });
    } catch (trouble) {
      const sentence = complaintOf(trouble);
      if (sentence === null) throw trouble;
      return goBack(request, HERE, { typed, wrong: { perMonth: sentence } });
    }
  });
}
