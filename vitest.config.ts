import { defineConfig } from "vitest/config";

const stores = ["tests/setup/postgres.ts"];
const apart = ["tests/start/**", "tests/browser/**"];
const pure = [
  "terms",
  "statistics",
  "intake",
  "measures",
  "drift",
  "compare",
  "charts",
  "scrutiny",
  "evidence",
  "access",
  "front",
];
const rooms = ["tests/*.test.ts", ...pure.map((room) => `tests/${room}/**/*.test.ts`)];

// Rooms need nothing; stores get a throw-away PostgreSQL; start and browser run the real program.
export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      // Long enough for a machine that does other things: how fast we are is what the benches say.
      { test: { name: "rooms", include: rooms, setupFiles: ["tests/setup/quiet.ts"], testTimeout: 60_000 } },
      {
        test: {
          name: "stores",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: [...rooms, ...apart],
          globalSetup: stores,
          setupFiles: ["tests/setup/quiet.ts"],
          hookTimeout: 60_000,
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: "start",
          include: ["tests/start/**/*.test.ts"],
          globalSetup: stores,
          hookTimeout: 300_000,
          testTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: ["tests/setup/serving.ts"],
          hookTimeout: 300_000,
          testTimeout: 60_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
