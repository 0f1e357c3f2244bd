import type { Root } from "./roots.ts";

/** A rule of the core broken on purpose, and the invariant the search must find broken. */
export interface Mutant {
  name: string;
  file: string;
  find: string;
  replace: string;
  expect: string;
  /** Where to look, so that it is found soon. */
  scope: string;
  roots?: readonly Root[];
}
export const MUTANTS: readonly Mutant[] = [];
