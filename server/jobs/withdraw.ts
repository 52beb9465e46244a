import { asPerson } from "#db/asPerson";
import { fileById } from "#db/queries/files";
import {
  fuelLeft,
  fuelOfFile,
  loadsChanged,
  loadsLeft,
  loadsSpokenOf,
  sizeOfFile,
  statesTakenBack,
} from "#db/queries/left";
import { factsOf } from "#db/queries/sites";
import { ROWS_AT_ONCE } from "./dayParts";
import { lockedSites } from "./lockedSites";
import { partsLeft } from "./partsLeft";
import { type Act, type Corridor, type Nothing, record } from "./record";
import { type SoFar, soFarOf } from "./saidOfFiles";
import { idsOf, loadsOnce, noneOfAllJoined, withdrawParts } from "./withdrawParts";
import { noneJoinedElsewhere, withoutPart } from "./withoutPart";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/**
 * Takes a log back: what it alone told is withdrawn; of what others tell too, what they tell remains. Nothing is removed;
 * the same bytes may be sent again. Answers false when it was withdrawn already. Throws JoinedElsewhere where a person
 * joined loads of it to a dried weight of another log.
 *
 * A large log is marked as taken back first, so that nobody counts it any more, and then goes part by part, every part
 * wholly or not at all. Stopped or cut short, what is left of it still counts, and asked again it goes on.
 */
export async function withdraw(corridor: Corridor, file: string, reason: string): Promise<boolean> {
  const large = await asPerson(corridor, async (tx) => {
    const size = await sizeOfFile(tx, file);
    const isLarge = Math.max(size.loads, size.fuel) > ROWS_AT_ONCE;
    return isLarge && (await statesTakenBack(tx, file)).length === 0 ? size : null;
  });
  if (large !== null) await noneOfAllJoined(corridor, file);
  const done = await record(corridor, async (tx): Promise<Act<boolean | null> | Nothing<boolean | null>> => {
    const owner = (await fileById(tx, file))?.file.site;
    if (owner === undefined) throw new Error(`file ${file} is not here`);
    const sites = await lockedSites(tx, owner);
    const before = (await statesTakenBack(tx, file)).at(-1);
    if (before !== undefined) return { nothing: soFarOf(before.detail) === null ? false : null };
    const about = { command: "withdraw", site: owner, about: { file } } as const;
    const state = (soFar?: SoFar) => [
      { file, site: owner, state: "withdrawn", detail: { reason, ...(soFar === undefined ? {} : { soFar }) } },
    ];
    if (large !== null)
      return { ...about, changes: { fileStates: state({ loads: 0, of: large.loads }) }, answer: () => null };
    const changed = await loadsChanged(tx, file);
    await noneJoinedElsewhere(tx, file, idsOf(changed));
    const all = loadsOnce(changed, await loadsSpokenOf(tx, file));
    const fuel = await fuelLeft(tx, file, await fuelOfFile(tx, file));
    const [part = []] = partsLeft(await loadsLeft(tx, file, EVERYTHING, all), fuel, EVERYTHING);
    const ids = sites.map(({ id }) => id);
    const changes = await withoutPart(tx, file, part, await factsOf(tx, ids, EVERYTHING));
    return { ...about, changes: { ...changes, fileStates: state() }, answer: () => true };
  });
  if (done !== null) return done;
  await withdrawParts(corridor, file);
  return true;
}
