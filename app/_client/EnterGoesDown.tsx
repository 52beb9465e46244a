"use client";

import { type ReactNode, useEffect, useRef } from "react";

/**
 * A grid of cells called by line and column ("3.fresh"), in which Enter goes to the cell below; in the last line it asks
 * for more lines and goes on there. Without script Enter is the first button of the form.
 */
export function EnterGoesDown({ children }: { readonly children: ReactNode }) {
  const grid = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const here = grid.current;
    here?.addEventListener("keydown", goDown);
    return () => here?.removeEventListener("keydown", goDown);
  }, []);
  return <div ref={grid}>{children}</div>;
}

function goDown(event: KeyboardEvent): void {
  const cell = event.target;
  const isPlain = !event.isComposing && !event.ctrlKey && !event.altKey && !event.metaKey && !event.shiftKey;
  if (event.key !== "Enter" || !isPlain || !(cell instanceof HTMLInputElement)) return;
  event.preventDefault();
  const [line, column = ""] = cell.name.split(".");
  const below = document.getElementById(`${Number(line) + 1}.${column}`);
  if (below instanceof HTMLInputElement) {
    below.focus();
    below.select();
    return;
  }
  const more = cell.form?.querySelector<HTMLButtonElement>('button[name="next"][value="more"]');
  const at = cell.form?.elements.namedItem("at");
  if (more == null || !(at instanceof HTMLInputElement)) return;
  at.value = column;
  cell.form?.requestSubmit(more);
}
