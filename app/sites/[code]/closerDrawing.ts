import { CustomChart, type CustomSeriesOption, LineChart, type LineSeriesOption } from "echarts/charts";
import {
  AriaComponent,
  DataZoomInsideComponent,
  GridComponent,
  MarkLineComponent,
  TooltipComponent,
} from "echarts/components";
import { type ComposeOption, type ECharts, init, use } from "echarts/core";
import { CanvasRenderer } from "echarts/renderers";
import { dayNumber } from "#server/terms/days";
import { numberInWords } from "../../_words/figures";
import type { Closer, CloserPanel, CloserPoint } from "./closerOf";
import { pointInWords } from "./pointInWords";

use([
  AriaComponent,
  CanvasRenderer,
  CustomChart,
  DataZoomInsideComponent,
  GridComponent,
  LineChart,
  MarkLineComponent,
  TooltipComponent,
]);

/** Colours of the page's tokens, as they stand now. */
export interface Ink {
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  readonly deep: string;
  readonly sheet: string;
  readonly edge: string;
}

type Series = LineSeriesOption | CustomSeriesOption;

const DAY = 86_400_000;
const [HEAD, TITLE, PANEL, GAP, FOOT] = [20, 22, 110, 40, 28];
const FEWEST_DAYS = 7;

export function heightOf({ panels }: Closer): number {
  return HEAD + TITLE + panels.length * (PANEL + GAP) + FOOT;
}

/** Draws the panels on a canvas: it needs neither style elements nor code made at run time, which our policy forbids. */
export function draw(place: HTMLElement, closer: Closer, ink: Ink): ECharts {
  const chart = init(place, null, { renderer: "canvas" });
  chart.setOption(optionOf(closer, ink));
  return chart;
}

/** Pure, so that a test can look at it. */
export function optionOf(closer: Closer, ink: Ink): ComposeOption<Series> & Record<string, unknown> {
  const { panels, events, from, to } = closer;
  const indices = panels.map((_, i) => i);
  const words = { color: ink.quiet, fontSize: 12 };
  const top = (i: number) => HEAD + TITLE + i * (PANEL + GAP);
  return {
    animation: false,
    useUTC: true,
    textStyle: { fontFamily: "system-ui, sans-serif" },
    aria: { enabled: true, label: { description: `${closer.short}. ${closer.long}` } },
    grid: indices.map((i) => ({ left: 52, right: 12, top: top(i), height: PANEL })),
    xAxis: indices.map((i) => ({
      type: "time",
      gridIndex: i,
      min: dayNumber(from) * DAY,
      max: (dayNumber(to) + 1) * DAY,
      axisLabel: { ...words, show: i === panels.length - 1, hideOverlap: true },
      axisLine: { lineStyle: { color: ink.edge } },
      axisPointer: { lineStyle: { color: ink.edge } },
    })),
    yAxis: panels.map(({ title, unit }, i) => ({
      type: "value",
      gridIndex: i,
      scale: true,
      splitNumber: 3,
      name: title,
      nameGap: 11,
      nameTextStyle: { color: ink.ink, fontWeight: "bold", align: "left", padding: [0, 0, 0, -44] },
      axisLabel: { ...words, formatter: (value: number) => numberInWords(value, unit) },
      splitLine: { lineStyle: { color: ink.line } },
    })),
    axisPointer: { link: [{ xAxisIndex: "all" }] },
    tooltip: {
      trigger: "axis",
      renderMode: "richText",
      confine: true,
      backgroundColor: ink.sheet,
      borderColor: ink.edge,
      textStyle: { color: ink.ink, fontSize: 13 },
      formatter: (shown: unknown) => told(closer, shown),
    },
    dataZoom: [
      {
        type: "inside",
        xAxisIndex: indices,
        // a level line whose ends lie outside is still drawn across
        filterMode: "none",
        zoomOnMouseWheel: "shift",
        moveOnMouseMove: false,
        moveOnMouseWheel: false,
        minValueSpan: FEWEST_DAYS * DAY,
      },
    ],
    series: panels.flatMap((panel, i) => seriesOf(panel, i, events, ink)),
  };
}

function seriesOf(panel: CloserPanel, i: number, events: Closer["events"], ink: Ink): Series[] {
  const axes = { xAxisIndex: i, yAxisIndex: i };
  const rules = events.map(({ day }, at) => ({ xAxis: dayNumber(day) * DAY, name: String(at + 1) }));
  const mark =
    panel.mark === null ? [] : [{ yAxis: panel.mark, lineStyle: { type: "dashed" as const, color: ink.ink } }];
  return [
    {
      ...axes,
      type: "line",
      name: panel.title,
      data: panel.points.flatMap((point, at) => [...brokenBefore(panel.points[at - 1], point), dotOf(point, ink)]),
      color: ink.deep,
      symbolSize: 8,
      lineStyle: { width: 1.5 },
      connectNulls: false,
      markLine: {
        silent: true,
        symbol: "none",
        lineStyle: { color: ink.quiet, width: 1, type: "solid" },
        label: { show: i === 0, formatter: "{b}", color: ink.ink, distance: TITLE },
        data: [...rules, ...mark.map((one) => ({ ...one, label: { show: false } }))],
      },
    },
    {
      ...axes,
      type: "custom",
      // else ranges of days outside what is shown would be drawn over the axis
      clip: true,
      silent: true,
      tooltip: { show: false },
      data: panel.points.flatMap((p) =>
        p.low === undefined || p.high === undefined ? [] : [[middle(p), p.low, p.high]],
      ),
      encode: { x: 0, y: [1, 2] },
      renderItem: (_, api) => {
        const [x = 0, low = 0] = api.coord([api.value(0), api.value(1)]);
        const [, high = 0] = api.coord([api.value(0), api.value(2)]);
        return {
          type: "line",
          shape: { x1: x, y1: low, x2: x, y2: high },
          style: { stroke: ink.deep, lineWidth: 1.5 },
        };
      },
    },
    ...panel.levels.map(
      ({ from, to, value }): LineSeriesOption => ({
        ...axes,
        type: "line",
        silent: true,
        symbol: "none",
        tooltip: { show: false },
        color: ink.ink,
        lineStyle: { width: 2 },
        data: [
          [dayNumber(from) * DAY, value],
          [(dayNumber(to) + 1) * DAY, value],
        ],
      }),
    ),
  ];
}

function middle({ from, to }: CloserPoint): number {
  return ((dayNumber(from) + dayNumber(to) + 1) / 2) * DAY;
}

/** Days between two points break the line. */
function brokenBefore(before: CloserPoint | undefined, point: CloserPoint): [number, null][] {
  const isNext = before === undefined || dayNumber(point.from) - dayNumber(before.to) === 1;
  return isNext ? [] : [[dayNumber(point.from) * DAY - DAY / 2, null]];
}

function dotOf(point: CloserPoint, ink: Ink) {
  return {
    value: [middle(point), point.value] as [number, number | null],
    symbol: "circle",
    itemStyle: { color: point.hollow ? ink.sheet : ink.deep, borderColor: ink.deep, borderWidth: 2 },
  };
}

/** What stands under the pointer, panel by panel. */
function told({ panels }: Closer, shown: unknown): string {
  const all: readonly unknown[] = Array.isArray(shown) ? shown : [shown];
  const lines = all.flatMap((one) => {
    const found = spotOf(one);
    const panel = panels.find(({ title }) => title === found?.name);
    const point = panel?.points.find((each) => middle(each) === found?.at);
    return panel === undefined || point === undefined ? [] : [`${panel.title}\n${pointInWords(point, panel.unit)}`];
  });
  return lines.join("\n\n");
}

function spotOf(one: unknown): { readonly name: unknown; readonly at: unknown } | null {
  if (typeof one !== "object" || one === null || !("seriesName" in one) || !("value" in one)) return null;
  return { name: one.seriesName, at: Array.isArray(one.value) ? one.value[0] : null };
}
