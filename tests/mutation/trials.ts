import { JestAsymmetricMatchers, JestChaiExpect, JestExtend } from "@vitest/expect";
import * as chai from "chai";

/** One test as the mutation runner holds it. */
export interface Trial {
  name: string;
  run: () => unknown;
}

/**
 * Replaces what a test file imports from "vitest", as far as the rules' tests use it. Tests are only collected
 * here; the worker runs them one by one in this process.
 */
export function trialsOf(evaluate: (vitest: object) => void): Trial[] {
  const trials: Trial[] = [];
  let above: string[] = [];
  const it = (title: string, ...more: unknown[]) => {
    trials.push({ name: [...above, title].join(" > "), run: bodyOf(more) });
  };
  const describe = (title: string, ...more: unknown[]) => {
    const body = bodyOf(more);
    const outer = above;
    above = [...outer, title];
    body();
    above = outer;
  };
  const each = (one: (title: string, body: () => unknown) => void) => (rows: readonly unknown[]) => {
    return (title: string, ...more: unknown[]) => {
      const body = bodyOf(more);
      for (const [i, row] of rows.entries())
        one(`${title} [${i}]`, () => body(...(Array.isArray(row) ? row : [row])));
    };
  };
  evaluate({
    it: Object.assign(it, { each: each(it) }),
    describe: Object.assign(describe, { each: each(describe) }),
    expect: chai.expect,
  });
  return trials;
}

/** Options and a time limit stand before or after the body. */
function bodyOf(more: readonly unknown[]): (...args: unknown[]) => unknown {
  return more.find((part) => typeof part === "function") as (...args: unknown[]) => unknown;
}

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
