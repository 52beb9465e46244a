"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

/** Asks for this page anew while it stands. Without script the page does so by itself. */
export function Refreshed({ everyMs }: { readonly everyMs: number }) {
  const router = useRouter();
  useEffect(() => {
    const asking = setInterval(() => router.refresh(), everyMs);
    return () => clearInterval(asking);
  }, [router, everyMs]);
  return null;
}
