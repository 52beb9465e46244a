import { scenario } from "./generate";
import { type DemoSignIn, type Loading, openDemo, sendDemo } from "./load";

/** The demo of twelve months up to `lastMonth`, ready to be loaded: what opens at once, and what is sent after it. */
export async function demoLoading(lastMonth: string, seed: number) {
  const demo = await scenario(lastMonth, seed);
  const startsOn = demo.startsOn;
  const silent = () => {};
  return {
    startsOn,
    open: (apiAt: Loading["apiAt"]): Promise<DemoSignIn[]> =>
      openDemo({ demo, apiAt, now: new Date(startsOn), progress: silent }),
    send: (apiAt: Loading["apiAt"], now: Date, progress: Loading["progress"]): Promise<void> =>
      sendDemo({ demo, apiAt, now, progress }),
  };
}
