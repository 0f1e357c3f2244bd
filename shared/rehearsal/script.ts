import { z } from "zod";
import { postSchema } from "../protocol/enums.ts";
import { FAULTS } from "../protocol/rehearsalFaults.ts";
import { idSchema, line } from "../protocol/text.ts";

/** What a fault waits for. The last four are about the engine it strikes. */
export const MOMENTS = ["begun", "powerOn", "warmUp", "cleared", "cranking", "caught", "running"] as const;
export type Moment = (typeof MOMENTS)[number];

const said = (most: number) => z.strictObject({ en: line(most), es: line(most) });

/** One fault that a script may bring about. */
const plannedFaultSchema = z.strictObject({
  fault: z.enum(FAULTS),
  /** The engine it strikes, by its place in the order of starting: a script fits every type. */
  which: z.number().int().min(1).max(8).default(1),
  after: z.enum(MOMENTS),
  /** Seconds after that moment. */
  seconds: z.number().min(0).max(1_800).default(0),
  /** How likely it is, 0 to 1: the seed decides. */
  chance: z.number().min(0).max(1).default(1),
  /** The post it befalls, where it is a person's. */
  post: postSchema.optional(),
});
export type PlannedFault = z.infer<typeof plannedFaultSchema>;

/** What happens in a rehearsal, as data: written, exported and imported as JSON. */
export const rehearsalScriptSchema = z.strictObject({
  id: idSchema,
  title: said(60),
  about: said(240),
  /** The air's temperature, degrees Celsius: the aircraft stood in it all night. */
  airC: z.number().min(-30).max(45),
  /** How much slower than usual the partners are, 1 to 4. */
  slower: z.number().min(1).max(4).default(1),
  faults: z.array(plannedFaultSchema).max(12),
});
export type RehearsalScript = z.infer<typeof rehearsalScriptSchema>;
