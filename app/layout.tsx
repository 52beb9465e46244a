import type { ReactNode } from "react";
import "./tokens.css";

// Every page is made for its request: each carries a script nonce of its own, and none is kept by anyone on the way.
export const dynamic = "force-dynamic";

export default function Layout({ children }: { readonly children: ReactNode }) {
  return (
    <html lang="en">
      <body>{children}</body>
    </html>
  );
}
