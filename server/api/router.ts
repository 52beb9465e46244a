import { createCaller, router } from "./base";
import { compareRouter } from "./compare";
import { evidenceRouter } from "./evidence";
import { figuresRouter } from "./figures";
import { ledgerRouter } from "./ledger";
import { logsRouter } from "./logs";
import { peopleRouter } from "./people";
import { programmeRouter } from "./programme";
import { sentRouter } from "./sent";
import { signalsRouter } from "./signals";
import { siteRouter } from "./site";
import { sitesRouter } from "./sites";

export const appRouter = router({
  sites: sitesRouter,
  site: siteRouter,
  people: peopleRouter,
  logs: logsRouter,
  sent: sentRouter,
  figures: figuresRouter,
  programme: programmeRouter,
  compare: compareRouter,
  signals: signalsRouter,
  evidence: evidenceRouter,
  ledger: ledgerRouter,
});
export type AppRouter = typeof appRouter;

/** Calls procedures from our own house: pages, commands, tests. */
export const callerOf = createCaller(appRouter);
