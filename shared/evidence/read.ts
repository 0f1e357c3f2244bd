import { eventSchema, type SessionEvent } from "../protocol/events.ts";

const sealedSchema = eventSchema.extend({ prev: eventSchema.shape.session });

/**
 * Returns the event of one stored line. There is one form of event so far; a newer version will convert older forms
 * here.
 * @throws Error that says what is wrong with the line
 */
export function readSealed(body: string): { event: SessionEvent; prev: string } {
  return eventOf(JSON.parse(body));
}

/** Returns the same for a line's parsed JSON. */
export function eventOf(json: unknown): { event: SessionEvent; prev: string } {
  const parsed = sealedSchema.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new Error(`${issue?.path.join(".") ?? ""}: ${issue?.message ?? "not an event"}`);
  }
  const { prev, ...event } = parsed.data;
  return { event, prev };
}
