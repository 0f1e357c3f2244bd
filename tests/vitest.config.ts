import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Folders whose files take longest. They begin first, so that none is still running alone at the end. */
const LONG = ["tests/browser/", "tests/live/", "tests/servers/", "tests/search/", "tests/faults/"];

const filesOf = (...folders: string[]) => folders.map((folder) => `tests/${folder}/**/*.test.{ts,tsx}`);

/**
 * Folders whose tests change no clock and no state of a module. Their files share a process, because loading the core
 * again for each file takes longer than most of them run.
 */
const PURE = filesOf(
  "figures",
  "handSignals",
  "models",
  "panels",
  "print",
  "safety",
  "spec",
  "types",
  "words",
);

/** Folders that need a process for each file, but no database, browser or other program, and take seconds. */
const QUICK = filesOf("pwa", "seed");

/** Each wait in a browser test has its own limit (`PATIENCE` in `seat.ts`), so the tests' limit is only the last resort. */
const BROWSER = filesOf("browser");

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const rank = ({ moduleId, project }: TestSpecification) => {
      const at = LONG.findIndex((folder) => moduleId.includes(folder));
      // Files share a process only when they follow each other and are of one project.
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
      { extends: true, test: { name: "quick", include: QUICK } },
      {
        extends: true,
        test: {
          name: "browser",
          include: BROWSER,
          testTimeout: 600_000,
          expect: { poll: { timeout: 60_000 } },
        },
      },
      {
        extends: true,
        test: { name: "other", include: filesOf("**"), exclude: [...PURE, ...QUICK, ...BROWSER] },
      },
    ],
    environment: "node",
    pool: "forks",
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    // Only a last resort: a busy machine is slow, not wrong.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    // A suite that finds nothing to run has checked nothing.
    passWithNoTests: false,
  },
});
