import type { z } from "zod";

/** The schemas that the API's description names, each under its name. */
const NAMED = new Map<string, z.ZodType>();

/**
 * Gives a schema its name in the API's description. Wherever a schema of the same form occurs, the description refers
 * to it, so that a client made from it has one type for one thing.
 * @throws Error when another schema has the name
 */
export function named<S extends z.ZodType>(name: string, schema: S): S {
  const before = NAMED.get(name);
  if (before && before !== schema) throw new Error(`two schemas are named ${name}`);
  NAMED.set(name, schema);
  return schema;
}

/** Returns every named schema. */
export const allNamed = (): ReadonlyMap<string, z.ZodType> => NAMED;
