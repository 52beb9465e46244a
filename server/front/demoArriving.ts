/** How much of a demo is here, while its logs are sent behind the pages. */
export interface Arriving {
  readonly done: number;
  readonly of: number;
}

/** One for all bundles that share the process: the front steps note it, pages ask it. */
const here: typeof globalThis & { evendryArriving?: Arriving | null } = globalThis;

/** Notes how much of the demo is here; null once all of it is. */
export function noteArriving(arriving: Arriving | null): void {
  here.evendryArriving = arriving;
}

/** How much of the demo is here; null where nothing is on its way. */
export function demoArriving(): Arriving | null {
  return here.evendryArriving ?? null;
}
