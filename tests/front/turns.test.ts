import { expect, test } from "vitest";
import { answerWaitsFor, othersWait } from "#server/front/currentAnswer";
import type { Answering } from "#server/front/frontServer";
import { turnForOthers } from "#server/jobs/turnForOthers";
import { underWay, type Work } from "#server/jobs/underWay";
import { frontStanding } from "../setup/frontStanding";

const MINUTE = 60_000;
const about = (person: string) => ({ file: "a log", person, doing: "counting", ofBytes: 1 }) as const;

/** A page that is being made until it is told to end; tells once somebody asked for it. */
function slowPage(during: (ended: Promise<void>) => Promise<void> = (ended) => ended) {
  let [asked, end] = [() => {}, () => {}];
  const isAsked = new Promise<void>((on) => (asked = on));
  const ended = new Promise<void>((on) => (end = on));
  const page: Answering = async (_asked, answer) => {
    const made = during(ended);
    asked();
    await made;
    answer.end("here");
  };
  return { page, isAsked, end: () => end() };
}

async function asking(page: Answering): Promise<string> {
  const port = await frontStanding(page);
  return fetch(`http://127.0.0.1:${port}/`).then((answer) => answer.text());
}

test("work waits for a page that somebody asked for, until that is answered", async () => {
  const { page, isAsked, end } = slowPage();
  const text = asking(page);
  await isAsked;
  expect(othersWait()).toBe(true);
  let isOver = false;
  const turn = turnForOthers(undefined, MINUTE).then(() => (isOver = true));
  await new Promise((on) => setTimeout(on, 50));
  expect(isOver).toBe(false);
  end();
  expect(await text).toBe("here");
  await turn;
  expect(othersWait()).toBe(false);
});

test("work goes on after a while, however long others take", async () => {
  const { page, isAsked, end } = slowPage();
  const text = asking(page);
  await isAsked;
  await turnForOthers(undefined, 20);
  expect(othersWait()).toBe(true);
  end();
  await text;
});

test("work does not wait for who waits for it, and does for who waits for other work", async () => {
  let mine: Work | undefined;
  const { page, isAsked, end } = slowPage((ended) =>
    underWay(about("one"), async (work) => {
      mine = work;
      await ended;
    }),
  );
  const text = asking(page);
  await isAsked;
  expect([othersWait(mine), othersWait()]).toEqual([false, true]);
  await turnForOthers(mine, MINUTE);
  await underWay(about("another"), async (work) => expect(othersWait(work)).toBe(true));
  end();
  await text;
});

test("who asked is in nobody's way while the own answer is made", async () => {
  let waited: boolean | null = null;
  const text = asking(async (_asked, answer) => {
    waited = othersWait();
    answerWaitsFor({});
    await turnForOthers(undefined, MINUTE);
    answer.end("here");
  });
  expect(await text).toBe("here");
  expect(waited).toBe(false);
});
