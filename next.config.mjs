/** @type {import("next").NextConfig} */
export default {
  serverExternalPackages: ["@electric-sql/pglite", "postgres"],
  turbopack: { root: import.meta.dirname },
  outputFileTracingRoot: import.meta.dirname,
  poweredByHeader: false,
  images: { unoptimized: true },
  reactStrictMode: true,
  // a page asks for its own styles, not for everybody's: on a slow line they share the way with the scripts
  experimental: { cssChunking: { type: "graph", requestCost: 2_000 } },
  typescript: { ignoreBuildErrors: true }, // `npm test` checks the types of everything; `npm start` need not wait for it
};
