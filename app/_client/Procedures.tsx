"use client";

import { QueryClient, QueryClientProvider } from "@tanstack/react-query";
import { createTRPCClient, httpBatchLink } from "@trpc/client";
import { createTRPCContext } from "@trpc/tanstack-react-query";
import { type ReactNode, useState } from "react";
import type { AppRouter } from "#server/api/router";

const { TRPCProvider, useTRPC } = createTRPCContext<AppRouter>();

export { useTRPC };

/** So many calls go together; the server takes no more in one request. */
const TOGETHER = 10;

/** Lets what stands inside ask our procedures from the browser. */
export function Procedures({ children }: { readonly children: ReactNode }) {
  const [queries] = useState(
    () =>
      new QueryClient({ defaultOptions: { queries: { staleTime: 60_000, retry: 1, refetchOnWindowFocus: false } } }),
  );
  const [client] = useState(() =>
    createTRPCClient<AppRouter>({ links: [httpBatchLink({ url: "/api/trpc", maxItems: TOGETHER })] }),
  );
  return (
    <QueryClientProvider client={queries}>
      <TRPCProvider trpcClient={client} queryClient={queries}>
        {children}
      </TRPCProvider>
    </QueryClientProvider>
  );
}
