import type { ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { type Figure, known, type NoFigure, type Unit, unknown } from "#server/terms/figure";

const common = {
  restsOn: { used: 25, here: 25, owed: 26, of: "batches" },
  asKnownOn: { ledgerSize: 1, time: null },
} as const;

export function figure(value: number, half: number | null = null, unit: Unit = "kg/kg"): Figure {
  const interval = half === null ? null : { low: value - half, high: value + half, level: 0.95 };
  return known({ value, unit, interval, ...common });
}

export function none(why: NoFigure = "nothing-logged", unit: Unit = "kg/kg"): Figure {
  return unknown({ why, unit, ...common });
}

export function svgOf(picture: ReactElement): string {
  return renderToStaticMarkup(picture);
}

/** How often a class of the charts' stylesheet is on an element. */
export function marks(svg: string, look: string): number {
  return [...svg.matchAll(/class="([^"]*)"/g)].filter(([, names]) => new RegExp(`(^|_)${look}(_|$|\\s)`).test(names!))
    .length;
}
