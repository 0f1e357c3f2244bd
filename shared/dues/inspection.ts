import { z } from "zod";
import type { HouseAircraft } from "../house/aircraft.ts";
import type { EntryFault } from "../house/faults.ts";
import { engineSchema } from "../protocol/commands.ts";
import { daySchema } from "../protocol/equipment.ts";
import { hoursSchema } from "../protocol/fitted.ts";
import { idSchema, line } from "../protocol/text.ts";

const days = z.number().int().max(36_500);
const hours = z.number().max(20_000);
const starts = z.number().int().max(100_000);

/** The interval of an inspection, and the time before its end at which it is shown. */
const everySchema = z.discriminatedUnion("by", [
  z.strictObject({ by: z.literal("days"), days: days.min(1), ahead: days.min(0) }),
  /** By the hours of the part fitted at the engine's place. */
  z.strictObject({
    by: z.literal("hours"),
    part: z.enum(["engine", "propeller"]),
    hours: hours.positive(),
    ahead: hours.min(0),
  }),
  /** By engagements of the starter at the engine's place; for the whole aircraft, by sessions with an engagement. */
  z.strictObject({ by: z.literal("starts"), starts: starts.min(1), ahead: starts.min(0) }),
]);

/** Something that must be done to an aircraft again and again, such as an inspection or a battery's capacity test. */
export const inspectionSchema = z.strictObject({
  id: idSchema,
  aircraft: idSchema,
  /** Place of the engine; null for the whole aircraft. */
  engine: engineSchema.nullable(),
  name: line(60),
  /** The manual or programme that requires it, and the page. */
  source: line(120),
  every: everySchema,
  /** The last time it was done; null when nobody knows, and then it is due now. */
  last: z
    .strictObject({
      day: daySchema,
      /** Hours of the part then; null for an inspection by days or starts. */
      hours: hoursSchema.nullable(),
    })
    .nullable(),
  /** Kept with its history, and due no more. */
  retired: z.boolean(),
});
export type Inspection = z.infer<typeof inspectionSchema>;

/** Returns what is wrong with an entry beside its aircraft; `aircraft` is null when the house has none of that name. */
export function inspectionFaults(entry: Inspection, aircraft: HouseAircraft | null): EntryFault[] {
  const faults: EntryFault[] = [];
  const fault = (path: string, message: string) => faults.push({ path, message });
  if (!aircraft) fault("aircraft", `the house has no aircraft ${entry.aircraft}`);
  const { every, engine, last } = entry;
  if (every.by === "hours") {
    if (engine === null) fault("engine", "hours are those of one engine or propeller: name its place");
    if (last && last.hours === null) fault("last.hours", "say at how many hours it was done");
    if (every.ahead > every.hours) fault("every.ahead", `must be at most the ${every.hours} h between two`);
    return faults;
  }
  if (last && last.hours !== null) fault("last.hours", "belongs to an inspection by hours");
  if (every.by === "days" && every.ahead > every.days)
    fault("every.ahead", `must be at most the ${every.days} days between two`);
  if (every.by === "starts" && every.ahead > every.starts)
    fault("every.ahead", `must be at most the ${every.starts} starts between two`);
  return faults;
}
