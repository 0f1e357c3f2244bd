import { z } from "zod";
import { CONDITION_IDS } from "../../protocol/conditions.ts";
import { postSchema } from "../../protocol/enums.ts";
import { REFUSAL_REASONS } from "../../protocol/refusals.ts";

/** Kinds of writing in the records, in the order in which they are offered. */
export const WRITTEN_KINDS = [
  "plan",
  "post",
  "note",
  "stop",
  "reason",
  "refusal",
  "defect",
  "drill",
] as const;
export type WrittenKind = (typeof WRITTEN_KINDS)[number];

/** Something that a person wrote or was told, from one event of a record. People are named as the event names them. */
export const writtenSchema = z.strictObject({
  session: z.string(),
  /** The event, and the number of this writing within it. */
  seq: z.number().int(),
  part: z.number().int(),
  at: z.number().int(),
  aircraft: z.string(),
  kind: z.enum(WRITTEN_KINDS),
  engine: z.number().int().nullable(),
  /** The person who did it and their post; both are null for the server, the post for an observer. */
  by: z.string().nullable(),
  post: postSchema.nullable(),
  /** The other people it names. */
  people: z.array(z.string()),
  /** The words as they were written; null where there are none. */
  words: z.string().nullable(),
  /** The server's reason for refusing, and the conditions that were not met. */
  refused: z
    .strictObject({ reason: z.enum(REFUSAL_REASONS), conditions: z.array(z.enum(CONDITION_IDS)) })
    .nullable(),
});
export type Written = z.infer<typeof writtenSchema>;
