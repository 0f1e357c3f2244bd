import { z } from "zod";
import { daySchema } from "../protocol/equipment.ts";
import { idSchema, line } from "../protocol/text.ts";
import { endOf } from "./due.ts";

/** One thing that a service account may do. */
export const scopeSchema = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("readRecords") }),
  z.strictObject({ is: z.literal("readLive") }),
  /** Reads the dues as a calendar, by an address that holds the token. */
  z.strictObject({ is: z.literal("dueCalendar") }),
  z.strictObject({ is: z.literal("pushReadings"), aircraft: idSchema }),
  /** `place`: the field, as plans of sessions name it. */
  z.strictObject({ is: z.literal("pushWeather"), place: line(80) }),
]);
export type Scope = z.infer<typeof scopeSchema>;
export type ScopeKind = Scope["is"];

/** An account of another system. It holds no post and is never a person. */
export const serviceAccountSchema = z.strictObject({
  id: z.string().regex(/^[0-9a-f]{16}$/),
  name: line(60),
  scopes: z.array(scopeSchema).min(1).max(20),
  /** The last day on which it is of use, UTC. */
  until: daySchema,
  /** The argon2id hash of its secret. */
  secretHash: z.string().min(1).max(300),
  revoked: z.boolean(),
});
export type ServiceAccount = z.infer<typeof serviceAccountSchema>;

/** Returns true while an account may be used. */
export function isOfUse({ until, revoked }: ServiceAccount, now: number): boolean {
  return !revoked && now < endOf(until);
}
