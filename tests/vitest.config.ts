import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Folders whose files take long by what they drive: begun first, so that none is still running alone at the end. */
const LONG = ["tests/browser/", "tests/live/", "tests/servers/", "tests/search/", "tests/faults/"];

/**
 * Folders that test what keeps nothing to itself, no clock and no state of a module: their files share a process,
 * since loading the core anew for each takes longer than most of them run.
 */
const PURE = ["figures", "handSignals", "models", "panels", "print", "safety", "spec", "types", "words"].map(
  (folder) => `tests/${folder}/**/*.test.{ts,tsx}`,
);

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const rank = ({ moduleId, project }: TestSpecification) => {
      const at = LONG.findIndex((folder) => moduleId.includes(folder));
      // A process is shared by those of one project that follow each other.
      return at >= 0 ? at : LONG.length + (project.config.isolate ? 0 : 1);
    };
    return sorted.sort((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    projects: [
      { extends: true, test: { name: "pure", include: PURE, isolate: false } },
      { extends: true, test: { name: "other", include: ["tests/**/*.test.{ts,tsx}"], exclude: PURE } },
    ],
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
