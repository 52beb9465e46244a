import { afterEach, expect, test } from "vitest";
import { demoArriving, noteArriving } from "#server/front/demoArriving";
import { arrivingInWords } from "../../app/_words/demo";

afterEach(() => noteArriving(null));

test("a page says how much of the demo is here while the rest is on its way", () => {
  noteArriving({ done: 58, of: 143 });
  expect(arrivingInWords(demoArriving())).toBe(
    "The demo is still arriving: 58 of 143 logs and declarations are here. Load the page again to see more.",
  );
});

test("a page says nothing of a demo that is all here, or that was never asked for", () => {
  expect(arrivingInWords(demoArriving())).toBeNull();
  noteArriving({ done: 142, of: 143 });
  noteArriving(null);
  expect(arrivingInWords(demoArriving())).toBeNull();
});
