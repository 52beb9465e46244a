import {
  FLOOR_MJ_PER_KG,
  FUEL_FACTORS,
  GWP100,
  MJ_PER_KWH,
  PRACTICE,
  type Sourced,
  WATER,
  WOOD,
} from "#server/terms/factors";
import { FUELS } from "#server/terms/fuel";
import { SOURCES } from "#server/terms/sources";
import { Scrolling } from "../_parts/Scrolling";
import { FACTOR_WORDS, ORIGIN_WORDS } from "../_words/factors";
import { FUEL_WORDS } from "../_words/fuel";
import styles from "./page.module.css";

/** The published factors, each number with its source; a site's own declared factor stands before them. */
export function FactorTables() {
  return (
    <>
      <Scrolling label="Factors of the fuels">
        <table className={styles.table}>
          <caption>
            Fuels, on net calorific value. A dated factor that the programme declares stands before these.
          </caption>
          <thead>
            <tr>
              <th scope="col">Fuel</th>
              <th scope="col">MJ per kg</th>
              <th scope="col">kg per litre</th>
              <th scope="col">MJ per m³</th>
              <th scope="col">kg CO2 per TJ</th>
              <th scope="col">CO2 is</th>
              <th scope="col">kg CH4 per TJ</th>
              <th scope="col">kg N2O per TJ</th>
            </tr>
          </thead>
          <tbody>
            {FUELS.map((fuel) => {
              const { mjPerKg, kgPerL, mjPerM3, co2KgPerTj, origin, ch4KgPerTj, n2oKgPerTj } = FUEL_FACTORS[fuel];
              return (
                <tr key={fuel}>
                  <th scope="row">{FUEL_WORDS[fuel]}</th>
                  <Factor factor={mjPerKg} />
                  <Factor factor={kgPerL} />
                  <Factor factor={mjPerM3} />
                  <Factor factor={co2KgPerTj} />
                  <td className={styles.word}>{ORIGIN_WORDS[origin]}</td>
                  <Factor factor={ch4KgPerTj} />
                  <Factor factor={n2oKgPerTj} />
                </tr>
              );
            })}
          </tbody>
        </table>
      </Scrolling>
      <p>
        One kilowatt-hour is {MJ_PER_KWH.value} MJ. To warm water from 25 °C to 100 °C and boil it away takes at the
        least {FLOOR_MJ_PER_KG.toFixed(3)} MJ per kg.
      </p>
      <Scrolling label="Other numbers">
        <table className={styles.table}>
          <caption>
            Water, wood, warming over 100 years, and what the trade commonly sees. None of them judges a batch.
          </caption>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Value</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {others().map(({ name, value, source }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{value.toLocaleString("en-GB", { maximumFractionDigits: 3 })}</td>
                <td className={styles.word}>
                  <a href={`#source-${source}`}>{SOURCES[source].title}</a>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
    </>
  );
}

function Factor({ factor }: { readonly factor: Sourced | null }) {
  if (factor === null) return <td className={styles.none}>none used</td>;
  return (
    <td>
      <a href={`#source-${factor.source}`}>{factor.value.toLocaleString("en-GB", { maximumFractionDigits: 6 })}</a>
    </td>
  );
}

function others(): (Sourced & { readonly name: string })[] {
  const named = { ...WATER, ...WOOD, ...PRACTICE };
  const keys = Object.keys(named) as (keyof typeof named)[];
  const potentials = (["AR6", "AR5"] as const).flatMap((set) =>
    (["ch4Fossil", "ch4Biogenic", "n2o"] as const).map((gas) => ({
      name: `${FACTOR_WORDS[gas]} (${set})`,
      value: GWP100[set][gas],
      source: GWP100[set].source,
    })),
  );
  return [...keys.map((key) => ({ name: FACTOR_WORDS[key], ...named[key] })), ...potentials];
}
