/** Cautions, never a claim that something complies: common practice, short, and second to local rules. */
export const BEFORE_FIRE: readonly string[] = [
  "Sand stays hot for an hour and more: no water or wet larvae splashed into it, gloves, closed shoes, children away.",
  "Gas sinks and gathers low: cylinder upright and outdoors, leaks looked for with soap water, never a flame. If you smell it: shut the valve, no switches, out, call.",
  "Charcoal, wood and badly burning gas give off a gas that kills and nobody smells: never in a closed room. Headache at the fire: out, into fresh air.",
  "Burning fat: lid, sand or blanket, never water. A burn: 20 minutes under cool running water, then seek care.",
];

export const BEFORE_PACKING: readonly string[] = [
  "Let the batch cool, pack it dry, seal it, date it. Raw and dried apart: room, tools, hands. Never top up an old sack; throw away what is mouldy.",
  "Wear a mask against dust. Whoever is allergic to shellfish or mites may be to larvae: at a rash or wheezing stop, and see a doctor.",
  "Roasting does not prove that germs are dead, and rules for feed and food differ from place to place.",
];

export const DEFER =
  "Follow local code and licensed practice first: gas fitter, fire service, feed and food authority.";
