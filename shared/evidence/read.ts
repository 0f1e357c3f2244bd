import type { z } from "zod";
import { eventSchema, type SessionEvent } from "../protocol/events.ts";
import { type RecordEvent, recordEventSchema } from "../protocol/recordEvents.ts";

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
  const { prev, ...event } = parsed(sealedSchema, json);
  return { event, prev };
}

const sealedRecordSchema = recordEventSchema.extend({ prev: recordEventSchema.shape.session });

/**
 * Reads one stored line of an aircraft's record.
 * @throws Error saying what is wrong with the line
 */
export function readSealedRecord(body: string): { event: RecordEvent; prev: string } {
  return recordEventOf(JSON.parse(body));
}

/** The same, of the line's parsed JSON. */
export function recordEventOf(json: unknown): { event: RecordEvent; prev: string } {
  const { prev, ...event } = parsed(sealedRecordSchema, json);
  return { event, prev };
}

function parsed<T>(schema: z.ZodType<T>, json: unknown): T {
  const read = schema.safeParse(json);
  if (read.success) return read.data;
  const issue = read.error.issues[0];
  throw new Error(`${issue?.path.join(".") ?? ""}: ${issue?.message ?? "not an event"}`);
}
