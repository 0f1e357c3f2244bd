import { eventSchema, type SessionEvent } from "../protocol/events.ts";

const sealedSchema = eventSchema.extend({ prev: eventSchema.shape.session });

/**
 * Reads one stored line back into an event of today's form. Older forms will be brought up to it here.
 * @throws Error saying what is wrong with the line
 */
export function readSealed(body: string): { event: SessionEvent; prev: string } {
  return eventOf(JSON.parse(body));
}

/** The same, of the line's parsed JSON. */
export function eventOf(json: unknown): { event: SessionEvent; prev: string } {
  const parsed = sealedSchema.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new Error(`${issue?.path.join(".") ?? ""}: ${issue?.message ?? "not an event"}`);
  }
  const { prev, ...event } = parsed.data;
  return { event, prev };
}
