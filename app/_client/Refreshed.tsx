"use client";

import { useRouter } from "next/navigation";
import { useEffect, useTransition } from "react";

/** Asks for this page anew while it stands, once the last answer is here. Without script the page does so by itself. */
export function Refreshed({ everyMs }: { readonly everyMs: number }) {
  const router = useRouter();
  const [asking, ask] = useTransition();
  useEffect(() => {
    if (asking) return;
    const next = setTimeout(() => ask(() => router.refresh()), everyMs);
    return () => clearTimeout(next);
  }, [router, everyMs, asking]);
  return null;
}
