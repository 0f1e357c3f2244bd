import { z } from "zod";
import { CARD_CASES, CARD_MOMENTS } from "../protocol/cardMoments.ts";
import { postSchema } from "../protocol/enums.ts";
import { idSchema, line } from "../protocol/text.ts";
import { limitSchema, secondsSchema, sourceSchema } from "./limit.ts";

/** Figures that the program can work out, for an item to be compared with. */
const CARD_TARGETS = ["stationPressure"] as const;
export type CardTarget = (typeof CARD_TARGETS)[number];

const kindSchema = z.discriminatedUnion("is", [
  /** Done or not done. */
  z.strictObject({ is: z.literal("done") }),
  /** A figure of a gauge, within these bounds; a bound left out is the gauge's own mark. */
  z.strictObject({
    is: z.literal("range"),
    gauge: idSchema,
    min: z.number().finite().optional(),
    max: z.number().finite().optional(),
  }),
  /** A figure of a gauge, within a distance of what the program works out. */
  z.strictObject({
    is: z.literal("target"),
    gauge: idSchema,
    of: z.enum(CARD_TARGETS),
    within: limitSchema,
  }),
  /** An instrument that must come alive this soon after the engine caught, and the gauge that shows it, if one does. */
  z.strictObject({ is: z.literal("alive"), within: secondsSchema, gauge: idSchema.optional() }),
]);

/** One item of the card: what is done or watched, when, at which engines and by which post. */
const cardItemSchema = z.strictObject({
  id: idSchema,
  words: line(120),
  wordsEs: line(180).optional(),
  moment: z.enum(CARD_MOMENTS),
  /** The engines it is for, at a moment of an engine. Absent: every engine. */
  engines: z.array(z.number().int().min(1).max(8)).min(1).max(8).optional(),
  /** Asked only when the engine is to be started in this case. Absent: in every case. */
  when: z.enum(CARD_CASES).optional(),
  post: postSchema,
  kind: kindSchema,
  /** A clearance stands on it; for an item before the release, the release does. */
  clearance: z.literal(true).optional(),
  source: sourceSchema,
});
export type CardItem = z.infer<typeof cardItemSchema>;

export const cardSchema = z.array(cardItemSchema).min(1).max(80);
