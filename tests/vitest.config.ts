import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Folders whose files take longest. They begin first, so that none is still running alone at the end. */
const LONG = ["tests/browser/", "tests/live/", "tests/servers/", "tests/search/", "tests/faults/"];

const filesOf = (...folders: string[]) => folders.map((folder) => `tests/${folder}/**/*.test.{ts,tsx}`);

/** Folders whose tests need no database, browser or other program, and are quick. */
const PURE = filesOf(
  "figures",
  "handSignals",
  "history",
  "models",
  "panels",
  "print",
  "safety",
  "simulation",
  "spec",
  "types",
  "words",
);

/** Folders whose tests need none of these either, but take seconds. */
const QUICK = filesOf("pwa", "seed");

/** Each wait in a browser test has its own limit (`PATIENCE` in `seat.ts`), so the tests' limit is only the last resort. */
const BROWSER = filesOf("browser");

/** Files that mock a whole module: this works only where nothing has loaded the module before. */
const APART = ["tests/http/sign-in.test.ts"];

/** The order in which the projects run: what takes longest first, what takes least last, so that the workers end together. */
const PROJECTS = ["browser", "other", "apart", "quick", "pure"];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const rank = ({ moduleId, project }: TestSpecification) => {
      const at = LONG.findIndex((folder) => moduleId.includes(folder));
      // Files share a process only when they follow each other and are of one project.
      return (at >= 0 ? at : LONG.length) * PROJECTS.length + PROJECTS.indexOf(project.name);
    };
    return sorted.sort((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    projects: [
      { extends: true, test: { name: "pure", include: PURE } },
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
      { extends: true, test: { name: "apart", include: APART, isolate: true } },
      {
        extends: true,
        test: { name: "other", include: filesOf("**"), exclude: [...PURE, ...QUICK, ...BROWSER, ...APART] },
      },
    ],
    // Files share a process, because loading the product again for each file takes longer than most of them run. A test
    // leaves no clock, setting or module changed; spies and stubbed settings are undone before the next test.
    isolate: false,
    restoreMocks: true,
    unstubEnvs: true,
    environment: "node",
    pool: "forks",
    // One more than the two cores of a small machine: a browser test waits for a page or a limit half of its time.
    maxWorkers: 3,
    sequence: { sequencer: LongestFirst },
    // Only a last resort: a busy machine is slow, not wrong.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    // A suite that finds nothing to run has checked nothing.
    passWithNoTests: false,
  },
});
