import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Folders whose files take long by what they drive: begun first, so that none is still running alone at the end. */
const LONG = ["tests/browser/", "tests/live/", "tests/servers/", "tests/search/", "tests/faults/"];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const rank = ({ moduleId }: TestSpecification) => {
      const at = LONG.findIndex((folder) => moduleId.includes(folder));
      return at < 0 ? LONG.length : at;
    };
    return sorted.sort((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: ["tests/**/*.test.{ts,tsx}"],
    environment: "node",
    pool: "forks",
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    testTimeout: 20_000,
    hookTimeout: 20_000,
    // A suite that finds nothing to run has checked nothing.
    passWithNoTests: false,
  },
});
