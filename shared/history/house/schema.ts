import { z } from "zod";
import { ALERT_KINDS } from "../../protocol/alerts.ts";
import { engineSchema } from "../../protocol/commands.ts";
import { CONDITION_IDS } from "../../protocol/conditions.ts";
import { postSchema } from "../../protocol/enums.ts";
import { REFUSAL_REASONS } from "../../protocol/refusals.ts";

const count = z.number().int();
const ms = z.number().int();
/** Null where there are too few starts for a rate. */
const rate = z.number().nullable();

/** The figures of a house's starts, in whole weeks. Each list has the most frequent first, but for the weeks. */
export const houseFiguresSchema = z.strictObject({
  /** Sessions that were read, and how many of them engaged no starter. */
  sessions: count,
  unstarted: count,
  starts: count,
  /** True when there are too few starts for rates. `least`: those needed. */
  few: z.boolean(),
  least: count,
  /** From Monday, 00:00 UTC. A start counts in the week in which its session was planned. */
  weeks: z.array(z.strictObject({ from: ms, starts: count, caught: count, unstarted: count })),
  /** Null: an observer. */
  posts: z.array(
    z.strictObject({ post: postSchema.nullable(), holds: count, heldMin: z.number(), refusals: count }),
  ),
  holds: z.array(z.strictObject({ reason: z.string().nullable(), times: count, heldMin: z.number() })),
  conditions: z.array(z.strictObject({ condition: z.enum(CONDITION_IDS), times: count })),
  /** Holds and refusals of the starts in which a piece was used. `perStart`: both together. */
  equipment: z.array(
    z.strictObject({
      label: z.string(),
      starts: count,
      holds: count,
      heldMin: z.number(),
      refusals: count,
      perStart: rate,
    }),
  ),
  refusals: z.array(z.strictObject({ reason: z.enum(REFUSAL_REASONS), times: count })),
  /** `nuisance`: put aside, or over within `briefS` seconds without an act. */
  alerts: z.strictObject({
    briefS: count,
    raised: count,
    perStart: rate,
    nuisance: count,
    nuisancePerStart: rate,
    kinds: z.array(
      z.strictObject({
        kind: z.enum(ALERT_KINDS),
        raised: count,
        perStart: rate,
        shelved: count,
        brief: count,
        nuisance: count,
      }),
    ),
  }),
  touches: z.array(
    z.strictObject({
      aircraft: z.string(),
      n: engineSchema,
      serial: z.string().nullable(),
      starts: count,
      touches: count,
      perStart: rate,
    }),
  ),
});
export type HouseFigures = z.infer<typeof houseFiguresSchema>;
