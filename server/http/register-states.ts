import { z } from "zod";
import { nameById } from "../house/names.ts";
import type { Directory } from "../store/directory.ts";
import { named } from "./named.ts";

/** The answer to a change of an entry of the register. */
export const savedSchema = named("Saved", z.object({ id: z.string(), revision: z.number().int() }));

/** Returns the schema of one state of an entry, with who entered it. */
export const stateOf = <Body extends z.ZodType>(body: Body) =>
  z.object({
    revision: z.number().int(),
    at: z.number(),
    by: z.string(),
    reason: z.string().nullable(),
    body,
  });

/** Returns states with the names of those who entered them in place of their ids. */
export async function namedStates<State extends { by: string }>(
  states: readonly State[],
  directory: Directory,
): Promise<State[]> {
  const named = await nameById(directory);
  return states.map((state) => ({ ...state, by: named(state.by) }));
}
