/** Cautions, never a claim that something complies: common practice, short, and second to local rules. */
export const BEFORE_FIRE: readonly string[] = [
  "Sand stays hot for an hour and more. Keep water and wet larvae from splashing into it; wear gloves, closed shoes and long sleeves; keep children away.",
  "Gas sinks and gathers low. Cylinder upright and in the open, hose and regulator in date, soap water to look for leaks and never a flame. A smell of gas: shut the valve, no switches, out, call for help.",
  "Charcoal, wood and badly burning gas give off carbon monoxide, which nobody smells. Never in a closed room. Headache at the fire: stop and go into fresh air.",
  "Burning fat: put a lid, sand or a blanket on it, never water. A burn: cool it under running water for 20 minutes and seek care.",
];

export const BEFORE_PACKING: readonly string[] = [
  "Let the batch cool, then pack it dry, seal and date it. Keep raw and dried apart: room, tools and hands. Never top up an old sack; throw away what is mouldy.",
  "Wear a mask against dust. Who is allergic to shellfish or mites may be allergic to larvae: with a rash or wheezing stop and see a doctor.",
  "Roasting does not prove that germs are dead, and rules for feed and food differ from place to place.",
];

export const DEFER =
  "Follow local code and licensed practice first: gas fitter, fire service, feed and food authority.";
