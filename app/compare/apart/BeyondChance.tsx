import type { MonthCompared } from "#server/jobs/comparison";
import { ChartFigure } from "../../_charts/ChartFigure";
import { funnelChart } from "../../_charts/funnelChart";
import { Scrolling } from "../../_parts/Scrolling";
import {
  alikeInWords,
  COMPARED_WORDS,
  outsideInWords,
  placesInWords,
  rangeInWords,
  setAmongInWords,
  spreadInWords,
} from "../../_words/comparison";
import { listInWords } from "../../_words/days";
import { valueInWords } from "../../_words/figures";
import styles from "./page.module.css";

const FEWEST_MARKED = 8;

type Peers = MonthCompared["peers"][number];

interface Props {
  readonly compared: MonthCompared;
  readonly measure: Peers["measure"];
}

/** How far the sites truly differ in a measure, a part a group of sites that are alike. */
export function BeyondChance({ compared, measure }: Props) {
  const groups = compared.peers.filter((peers) => peers.measure === measure && peers.sites.length > 0);
  const few = groups.filter(({ spread }) => spread === null);
  const names = new Map(compared.rows.map(({ site, name }) => [site, name]));
  return (
    <section aria-labelledby="apart">
      <h2 id="apart">{COMPARED_WORDS[measure].name}, beyond chance</h2>
      {groups.length === 0 ? <p>No site has a figure of it in this month that could be compared.</p> : null}
      {groups
        .filter(({ spread }) => spread !== null)
        .map((peers) => (
          <Group key={alikeInWords(peers)} peers={peers} compared={compared} />
        ))}
      {few.length === 0 ? null : (
        <>
          <h3 className={styles.group}>Too few sites alike to say how they differ</h3>
          <ul>
            {few.map((peers) => (
              <li key={alikeInWords(peers)}>
                {alikeInWords(peers)}: {listInWords(peers.sites.map((site) => names.get(site) ?? site))}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Group({ peers, compared }: { readonly peers: Peers; readonly compared: MonthCompared }) {
  const { measure, funnel, sites } = peers;
  const at = compared.peers.indexOf(peers);
  const members = compared.rows
    .filter(({ cells }) => cells[measure].peers === at)
    .map(({ name, cells }) => ({ name, ...cells[measure] }));
  const unit = members[0]?.figure.unit ?? "kg/kg";
  const { name, from } = COMPARED_WORDS[measure];
  const dots = members.flatMap(({ name: site, figure, mass, limits }) =>
    figure.known && limits !== null
      ? [
          {
            name: site,
            value: figure.value,
            mass,
            inner: aboveNothing(limits.inner),
            outer: aboveNothing(limits.outer),
            outside: limits.outside !== null && limits.withheld === null,
          },
        ]
      : [],
  );
  const withheld = members.filter(({ limits }) => limits?.withheld != null).map((one) => one.name);
  return (
    <section className={styles.group}>
      <h3>{alikeInWords(peers)}</h3>
      <p className={styles.said}>
        {spreadInWords(peers, unit)} {setAmongInWords(peers, listInWords(members.map((one) => one.name)))}
      </p>
      {funnel === null || dots.length < 2 ? null : (
        <>
          <p className={styles.said}>
            {outsideInWords(
              dots.filter(({ outside }) => outside).map((dot) => dot.name),
              withheld,
              funnel.expectedOutside,
              sites.length >= FEWEST_MARKED,
            )}
          </p>
          <ChartFigure
            chart={funnelChart(`${name} against ${from}`, dots, { target: funnel.target, unit, mass: from })}
          />
        </>
      )}
      {peers.spread === null ? null : (
        <Scrolling label={`${name}, drawn toward the common value`}>
          <table className={styles.drawn}>
            <caption>Each figure drawn toward the common value, the further the less its own days tell</caption>
            <thead>
              <tr>
                <th scope="col">Site</th>
                <th scope="col">Best guess at its level</th>
                <th scope="col">95 % interval</th>
                <th scope="col">May stand at, with 90 % (highest first)</th>
              </tr>
            </thead>
            <tbody>
              {members.map(({ name: site, shrunken, places }) =>
                shrunken === null ? null : (
                  <tr key={site}>
                    <th scope="row">{site}</th>
                    <td>{valueInWords(shrunken.value, unit)}</td>
                    <td>{rangeInWords(shrunken, unit)}</td>
                    <td>{places === null ? "–" : placesInWords(places)}</td>
                  </tr>
                ),
              )}
            </tbody>
          </table>
        </Scrolling>
      )}
    </section>
  );
}

/** No yield, fuel or pace lies below nothing, wherever a limit worked out for few sites would lie. */
function aboveNothing({ low, high }: { readonly low: number; readonly high: number }) {
  return { low: Math.max(0, low), high };
}
