"use client";

import type { ECharts } from "echarts/core";
import { type ReactNode, useEffect, useRef, useState } from "react";
import { dayNumber, dayOf } from "#server/terms/days";
import { dayInWords } from "../../_words/days";
import type { Ink } from "./closerDrawing";
import type { Closer } from "./closerOf";
import styles from "./LookCloser.module.css";
import { type Move, movedWindow } from "./movedWindow";

const MOVES: readonly { readonly move: Move; readonly says: string }[] = [
  { move: "closer", says: "Closer" },
  { move: "wider", says: "Wider" },
  { move: "earlier", says: "Earlier" },
  { move: "later", says: "Later" },
  { move: "whole", says: "Whole time" },
];

interface Props {
  readonly closer: Closer;
  /** the still drawing, which stands until somebody wants to look closer, and again after */
  readonly children: ReactNode;
}

/** The still drawing, and on demand one to move about in; its program is fetched only then. */
export function LookCloser({ closer, children }: Props) {
  const place = useRef<HTMLDivElement>(null);
  const chart = useRef<ECharts | null>(null);
  const [state, setState] = useState<"no-script" | "still" | "fetching" | "moving" | "failed">("no-script");
  const [shown, setShown] = useState({ from: 0, to: 100 });
  const isOpen = state === "fetching" || state === "moving";

  useEffect(() => setState("still"), []);
  useEffect(() => {
    const element = place.current;
    if (!isOpen || element === null) return;
    let isGone = false;
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const fit = new ResizeObserver(() => chart.current?.resize());
    const redraw = async () => {
      try {
        const { draw, heightOf } = await import("./closerDrawing");
        if (isGone) return;
        chart.current?.dispose();
        element.style.blockSize = `${heightOf(closer)}px`;
        chart.current = draw(element, closer, inkOf(element));
        setShown({ from: 0, to: 100 });
        setState("moving");
      } catch {
        setState("failed");
      }
    };
    redraw();
    fit.observe(element);
    dark.addEventListener("change", redraw);
    return () => {
      isGone = true;
      dark.removeEventListener("change", redraw);
      fit.disconnect();
      chart.current?.dispose();
      chart.current = null;
    };
  }, [isOpen, closer]);

  function go(move: Move) {
    const next = movedWindow(shown, move);
    chart.current?.dispatchAction({ type: "dataZoom", start: next.from, end: next.to });
    setShown(next);
  }

  return (
    <>
      {state === "no-script" ? null : (
        <div className={styles.ways}>
          <button type="button" onClick={() => setState(isOpen ? "still" : "fetching")} aria-pressed={isOpen}>
            Look closer
          </button>
          {state === "moving"
            ? MOVES.map(({ move, says }) => (
                <button key={move} type="button" onClick={() => go(move)}>
                  {says}
                </button>
              ))
            : null}
          <p role="status">{statusOf(state, closer, shown)}</p>
        </div>
      )}
      {isOpen ? <div ref={place} className={styles.place} /> : null}
      <div hidden={state === "moving"} className={styles.still}>
        {children}
      </div>
    </>
  );
}

function statusOf(state: string, { from, to }: Closer, shown: { readonly from: number; readonly to: number }): string {
  if (state === "fetching") return "One moment.";
  if (state === "failed") return "It could not be fetched; the still drawing says the same.";
  if (state !== "moving") return "";
  const [first, days] = [dayNumber(from), dayNumber(to) - dayNumber(from)];
  const at = (percent: number) => dayInWords(dayOf(Math.round(first + (days * percent) / 100)));
  return `${at(shown.from)} to ${at(shown.to)}`;
}

/** A canvas knows no tokens: each colour is looked up where it will be drawn. */
function inkOf(element: HTMLElement): Ink {
  const before = element.style.color;
  const look = (token: string) => {
    element.style.color = `var(--${token})`;
    return getComputedStyle(element).color;
  };
  const ink = {
    ink: look("ink"),
    quiet: look("quiet"),
    line: look("line"),
    deep: look("deep"),
    sheet: look("sheet"),
    edge: look("edge"),
  };
  element.style.color = before;
  return ink;
}
