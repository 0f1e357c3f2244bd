import { z } from "zod";
import { attributionSchema } from "./standing.ts";

const ms = z.number().int();

/** The weather and lightning that other sessions on the same field have reported. */
export const fieldSchema = z.strictObject({
  flashes: z.array(
    z.strictObject({
      /** The session that reported it, and the number of its event there. */
      session: z.string(),
      seq: z.number().int(),
      at: ms,
      /** Statute miles; null when nobody could tell. */
      miles: z.number().nullable(),
      person: z.string().nullable(),
    }),
  ),
  /** The newest weather of another session; null when none was reported. */
  weather: z
    .strictObject({
      by: attributionSchema,
      windKt: z.number(),
      gustKt: z.number().nullable(),
      fromDeg: z.number().nullable(),
      temperatureC: z.number().nullable(),
      qnhHpa: z.number().nullable(),
      dewPointC: z.number().optional(),
      swing: z.tuple([z.number(), z.number()]).optional(),
      metar: z.string().optional(),
      observedAt: ms.optional(),
    })
    .nullable(),
});
export type Field = z.infer<typeof fieldSchema>;
