import { z } from "zod";
import { raisedSchema, type StartRow, startRowSchema } from "../../shared/history/row.ts";

/** The part of the history that one session left. */
const sessionStartsSchema = z.strictObject({
  rows: z.array(startRowSchema),
  /** Raised in a session that engaged no starter. */
  early: raisedSchema,
  /** True for a return, which the house's figures leave out. */
  returns: z.boolean(),
});
export interface SessionLeft extends z.infer<typeof sessionStartsSchema> {
  rows: StartRow[];
}

/** Returns what the index keeps of a session; null where it is damaged or of another form: the events tell it again. */
export function readKept(body: string): SessionLeft | null {
  try {
    return sessionStartsSchema.parse(JSON.parse(body));
  } catch {
    return null;
  }
}
