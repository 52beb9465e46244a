/** How a number from a source reached us. What was not seen is to be looked up before it is printed as a citation. */
export type HowSeen =
  | "seen" // in the source itself, its abstract or its official summary
  | "seen-in-copies" // in public copies of the named source that agree
  | "from-memory"
  | "definition"
  | "common-practice"; // of the trade; no publication claimed

export interface Source {
  readonly title: string;
  readonly body: string;
  /** null where the source is no publication or its year was not seen */
  readonly year: number | null;
  /** table, chapter or page; null where the whole is meant */
  readonly at: string | null;
  readonly how: HowSeen;
}

/** Every source a number in this house comes from, by the id that stands beside the number. */
export const SOURCES = {
  "ipcc-2006-ncv": {
    title: "2006 IPCC Guidelines for National Greenhouse Gas Inventories, Volume 2 Energy, Chapter 1",
    body: "Intergovernmental Panel on Climate Change",
    year: 2006,
    at: "Table 1.2, p. 1.18–1.19: net calorific values",
    how: "seen-in-copies",
  },
  "ipcc-2006-co2": {
    title: "2006 IPCC Guidelines for National Greenhouse Gas Inventories, Volume 2 Energy, Chapter 1",
    body: "Intergovernmental Panel on Climate Change",
    year: 2006,
    at: "Table 1.4, p. 1.23–1.24: carbon dioxide factors",
    how: "seen-in-copies",
  },
  "ipcc-2006-small-burners": {
    title: "2006 IPCC Guidelines for National Greenhouse Gas Inventories, Volume 2 Energy, Chapter 2",
    body: "Intergovernmental Panel on Climate Change",
    year: 2006,
    at: "Table 2.5: CH4 and N2O, residential and agriculture; the values were seen, the table number is from memory",
    how: "seen-in-copies",
  },
  "ipcc-2006-small-burners-unseen": {
    title: "2006 IPCC Guidelines for National Greenhouse Gas Inventories, Volume 2 Energy, Chapter 2",
    body: "Intergovernmental Panel on Climate Change",
    year: 2006,
    at: "Table 2.5: CH4 and N2O of biogas, diesel, petrol and other biomass",
    how: "from-memory",
  },
  "ipcc-ar6-gwp": {
    title: "Climate Change 2021, The Physical Science Basis, Chapter 7 and its supplement",
    body: "Intergovernmental Panel on Climate Change",
    year: 2021,
    at: "Table 7.15: 100-year warming potentials; N2O was seen, the split of CH4 is from memory",
    how: "seen-in-copies",
  },
  "ipcc-ar5-gwp": {
    title: "Climate Change 2013, The Physical Science Basis, Chapter 8",
    body: "Intergovernmental Panel on Climate Change",
    year: 2013,
    at: "100-year warming potentials without feedbacks",
    how: "seen-in-copies",
  },
  "desnz-2026": {
    title: "Greenhouse gas reporting: conversion factors 2026",
    body: "United Kingdom, Department for Energy Security and Net Zero",
    year: 2026,
    at: "Fuel properties: density of LPG 529.749 kg/m³",
    how: "seen-in-copies",
  },
  "jec-wtt-v5": {
    title: "JEC Well-to-Tank report v5",
    body: "European Commission, Joint Research Centre",
    year: 2020,
    at: "Annex, section 4.1 (diesel density) and Table 37 (natural gas per m³ at 0 °C)",
    how: "seen-in-copies",
  },
  "densities-unseen": {
    title: "Usual densities of kerosene and petrol; heat of biogas with 60 % methane",
    body: "handbooks",
    year: null,
    at: null,
    how: "from-memory",
  },
  "kilowatt-hour": {
    title: "One kilowatt-hour is 3.6 megajoules",
    body: "International System of Units",
    year: null,
    at: null,
    how: "definition",
  },
  "nist-steam": {
    title: "NIST/ASME steam tables (NISTIR 5078), as printed by a university course",
    body: "National Institute of Standards and Technology",
    year: 1998,
    at: "saturation table, 25 °C and 50 °C; the year is from memory",
    how: "seen-in-copies",
  },
  "iapws-saturation": {
    title: "Saturation properties of ordinary water, SR1-86(1992), reckoned anew",
    body: "International Association for the Properties of Water and Steam",
    year: 1992,
    at: "100 °C",
    how: "seen-in-copies",
  },
  "wood-fuels-handbook": {
    title: "Wood Fuels Handbook: heat of wood by moisture",
    body: "AIEL, Italian Agriforestry Energy Association",
    year: 2008,
    at: "net heat = dry heat · (1 − M) − 2.44 · M; formula and table seen on a public wood-fuel page",
    how: "seen-in-copies",
  },
  "irri-moisture": {
    title: "Rice Knowledge Bank, Moisture content calculations",
    body: "International Rice Research Institute",
    year: null,
    at: "1000 kg of paddy dried from 25 % to 14 %",
    how: "seen",
  },
  "cochran-sampling": {
    title: "Sampling Techniques",
    body: "W. G. Cochran, Wiley",
    year: 1977,
    at: "Chapter 6: ratio estimators",
    how: "from-memory",
  },
  "manski-bounds": {
    title: "Partial identification of what missing records could change",
    body: "C. F. Manski",
    year: 2003,
    at: null,
    how: "from-memory",
  },
  "der-simonian-laird": {
    title: "Meta-analysis in clinical trials, Controlled Clinical Trials 7:177",
    body: "R. DerSimonian and N. Laird",
    year: 1986,
    at: "spread between studies from Cochran's Q; results seen as the R package metafor works them out",
    how: "seen-in-copies",
  },
  "hartung-knapp": {
    title: "A refined method for the meta-analysis of controlled clinical trials, Statistics in Medicine 20:3875",
    body: "J. Hartung and G. Knapp",
    year: 2001,
    at: "interval of the mean by Student's t; results seen as the R package metafor works them out",
    how: "seen-in-copies",
  },
  "funnel-limits": {
    title: "Funnel plots for comparing institutional performance, Statistics in Medicine 24:1185",
    body: "D. J. Spiegelhalter",
    year: 2005,
    at: "limits and additive over-dispersion; the abstract was seen, the formulas are from memory",
    how: "from-memory",
  },
  "common-practice": {
    title: "What small drying sites commonly do and see",
    body: "practitioners; no publication claimed",
    year: null,
    at: null,
    how: "common-practice",
  },
} as const satisfies Readonly<Record<string, Source>>;

export type SourceId = keyof typeof SOURCES;
