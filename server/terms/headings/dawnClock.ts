import { words } from "./language";

/**
 * How Swahili says the time of day: hours count from dawn, so that "saa mbili" (two) is eight in the morning.
 *
 * `parts` are the parts of the day, each with the hours from midnight that it may mean (`to` is in it).
 */
export const dawnClock = {
  hour: words("saa"),
  numbers: [
    words("moja"),
    words("mbili"),
    words("tatu"),
    words("nne"),
    words("tano"),
    words("sita"),
    words("saba"),
    words("nane"),
    words("tisa"),
    words("kumi"),
    words("kumi na moja"),
    words("kumi na mbili"),
  ],
  half: words("na nusu, nusu"),
  quarter: words("na robo, robo"),
  quarterLess: words("kasoro robo, kasorobo"),
  parts: [
    { words: words("alfajiri"), from: 3, to: 6 },
    { words: words("asubuhi"), from: 5, to: 11 },
    { words: words("mchana"), from: 11, to: 16 },
    { words: words("alasiri"), from: 14, to: 17 },
    { words: words("jioni"), from: 16, to: 19 },
    { words: words("usiku"), from: 19, to: 27 },
  ],
};
