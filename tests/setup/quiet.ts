import { afterEach, beforeEach, expect, vi } from "vitest";

// A test that logs an error or a warning fails, whoever logs it.
const complaints: string[] = [];
process.on("warning", (warning) => complaints.push(String(warning)));

beforeEach(() => {
  for (const method of ["error", "warn"] as const) {
    vi.spyOn(console, method).mockImplementation((...said) => void complaints.push(said.map(String).join(" ")));
  }
});

afterEach(() => {
  vi.restoreAllMocks();
  expect(complaints.splice(0)).toEqual([]);
});
