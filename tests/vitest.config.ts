import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: ["tests/**/*.test.{ts,tsx}"],
    environment: "node",
    pool: "forks",
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 20_000,
    // A suite that finds nothing to run has checked nothing.
    passWithNoTests: false,
  },
});
