import { z } from "zod";
import { fittedSchema } from "../protocol/fitted.ts";
import { isRehearsedAircraft } from "../protocol/rehearsal.ts";
import { idSchema, line } from "../protocol/text.ts";

/** One aircraft of the house, as its register holds it. */
export const houseAircraftSchema = z.strictObject({
  /** The registration. It never changes, because the aircraft's record stands under it. */
  id: idSchema.refine((id) => !isRehearsedAircraft(id), "must not begin as a rehearsed aircraft does"),
  name: line(60),
  typeId: idSchema,
  /** The version of the type it is operated by. */
  typeVersion: z.number().int().min(1).max(1_000_000),
  /** Ascending by engine; an engine about which nothing is known may be left out. */
  fitted: z
    .array(fittedSchema)
    .max(8)
    .refine((all) => all.every(({ n }, i) => i === 0 || n > (all[i - 1]?.n ?? 0)), {
      message: "must name each engine once, in ascending order",
    }),
  /** The stand where it is kept. */
  stand: line(60).nullable(),
  notes: line(500).nullable(),
  /** Kept in the register, and never planned. */
  retired: z.boolean(),
});
export type HouseAircraft = z.infer<typeof houseAircraftSchema>;

/** Returns an aircraft in service of which only name and type are known. */
export function bareAircraft(
  known: Pick<HouseAircraft, "id" | "name" | "typeId"> & { typeVersion?: number },
): HouseAircraft {
  return { typeVersion: 1, fitted: [], stand: null, notes: null, retired: false, ...known };
}
