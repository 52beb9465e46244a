"use client";

import { useEffect } from "react";

/** Loads this page again while it stands, where it is. Without script the page does so by itself. */
export function Refreshed({ everyMs }: { readonly everyMs: number }) {
  useEffect(() => {
    const next = setTimeout(() => location.reload(), everyMs);
    return () => clearTimeout(next);
  }, [everyMs]);
  return null;
}
