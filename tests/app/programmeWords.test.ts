import { expect, test } from "vitest";
import { type MonthSaid, programmeInWords, silentInWords } from "#app/_words/programme";

const may: MonthSaid = {
  owing: 10,
  sent: 9,
  filedNothing: 0,
  freshKg: 4120.4,
  driedKg: 1339.6,
  tooFew: ["Lantern Hill"],
  changed: ["Old Jetty", "Salt Lane"],
  behind: false,
};

test.each([
  {
    said: may,
    aloud:
      "May: nine of ten sites sent their logs; 4,120 kg in, 1,340 kg dried; by its end two sites had changed, one has too few records to tell.",
  },
  {
    said: { ...may, sent: 10, changed: [], tooFew: [] },
    aloud: "May: all ten sites sent their logs; 4,120 kg in, 1,340 kg dried; by its end no site had changed.",
  },
  {
    said: { ...may, changed: [], tooFew: [], behind: true },
    aloud:
      "May: nine of ten sites sent their logs; 4,120 kg in, 1,340 kg dried; by its end, as far as looked through, no site had changed.",
  },
  {
    said: { ...may, sent: 1, driedKg: null, changed: [], tooFew: ["a", "b"] },
    aloud:
      "May: one of ten sites sent its log; 4,120 kg in, no dried weight yet; by its end no site had changed, two sites have too few records to tell.",
  },
  {
    said: { ...may, sent: 0, freshKg: null, driedKg: null, changed: [], tooFew: [] },
    aloud: "May: none of ten sites sent their logs.",
  },
  {
    said: { ...may, owing: 40, sent: 38, filedNothing: 1, changed: ["a"], tooFew: [] },
    aloud:
      "May: 38 of 40 sites sent their logs, one filed that nothing was produced; 4,120 kg in, 1,340 kg dried; by its end one site had changed.",
  },
  {
    said: { ...may, owing: 1, sent: 1, changed: [], tooFew: [] },
    aloud: "May: the one site that owed a log sent it; 4,120 kg in, 1,340 kg dried; by its end no site had changed.",
  },
  {
    said: { ...may, owing: 0, sent: 0, freshKg: null, driedKg: null, changed: [], tooFew: [] },
    aloud: "May: no site owed a log.",
  },
])("a month can be said aloud: $aloud", ({ said, aloud }) => {
  expect(programmeInWords("2031-05", said)).toBe(aloud);
});

test("who sent nothing is named", () => {
  expect(silentInWords([])).toBeNull();
  expect(silentInWords(["Palmgrove"])).toBe("Palmgrove has sent nothing for this month yet.");
  expect(silentInWords(["Palmgrove", "Red Kiln"])).toBe("Palmgrove and Red Kiln have sent nothing for this month yet.");
});
