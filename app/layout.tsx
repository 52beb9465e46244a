import type { Metadata } from "next";
import type { ReactNode } from "react";

// Every page is made for its request: each carries a script nonce of its own, and none is kept by anyone on the way.
export const dynamic = "force-dynamic";

export const metadata: Metadata = { title: "Evendry" };

export default function Layout({ children }: { readonly children: ReactNode }) {
  return (
    <html lang="en">
      <body>{children}</body>
    </html>
  );
}
