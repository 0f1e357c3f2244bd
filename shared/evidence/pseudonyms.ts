import type { SessionEvent } from "../protocol/events.ts";
import type { RecordEvent } from "../protocol/recordEvents.ts";
import type { Digest } from "./chain.ts";

// The sealed bytes hold a salted digest in place of each person's name. A reader who has the name and the salt can show
// whose it is. Once the salt is deleted nobody can, and every byte of the record still verifies.

/** The name and salt behind a pseudonym. */
export interface Opening {
  name: string;
  /** 128 random bits, hexadecimal. */
  salt: string;
}

const PSEUDONYMS = /"(person:[0-9a-f]{64})"/g;

/**
 * Returns the pseudonym of a name. It is a commitment: the digest binds it to the name, and the salt hides the name.
 */
export function pseudonymOf({ name, salt }: Opening, digest: Digest): string {
  return `person:${digest(`chockside name ${salt} ${name}`)}`;
}

/** Returns the pseudonyms in sealed bytes. */
export function pseudonymsIn(body: string): Set<string> {
  return new Set([...body.matchAll(PSEUDONYMS)].map((m) => m[1] ?? ""));
}

/**
 * Returns the sealed bytes with names in place of pseudonyms. They are for reading only, because their hash differs.
 */
export function withNames(body: string, nameOf: (pseudonym: string) => string): string {
  return body.replace(PSEUDONYMS, (_, pseudonym: string) => JSON.stringify(nameOf(pseudonym)));
}

/** Returns the words for an erased person. They are the same each time for one person, and do not give the name. */
export function erasedName(pseudonym: string): string {
  return `Erased person ${pseudonym.slice("person:".length, "person:".length + 6)}`;
}

/**
 * Returns the event with every person's name replaced by the result of `to`: the actor, the crew, the reporters of
 * conditions, the writers of defects and the people a refusal names. `id` is the person's id where it stands beside the
 * name.
 */
export function mapNames<E extends SessionEvent | RecordEvent>(
  event: E,
  to: (name: string, id: string | null) => string,
): E {
  return mapped(event, to) as E;
}

/** Keys whose value can be a name. A refusal's `found` may be the name of the person who prevents the action. */
const NAMES = new Set(["name", "found"]);

/** Members to skip: the names in them are not people's, such as the names of the type's gauges. */
const WITHOUT = new Set(["aircraftType", "action"]);

/** Copies only the parts that change, because most parts of an event hold no name. */
function mapped(value: unknown, to: (name: string, id: string | null) => string): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) {
    const next = value.map((v) => mapped(v, to));
    return next.some((v, i) => v !== value[i]) ? next : value;
  }
  const old = value as Record<string, unknown>;
  let copy: Record<string, unknown> | null = null;
  for (const key of Object.keys(old)) {
    const v = old[key];
    const next = NAMES.has(key) && typeof v === "string" ? to(v, idOf(old)) : inside(key, v, to);
    if (next === v) continue;
    copy ??= { ...old };
    copy[key] = next;
  }
  return copy ?? old;
}

function inside(key: string, v: unknown, to: (name: string, id: string | null) => string): unknown {
  return WITHOUT.has(key) ? v : mapped(v, to);
}

function idOf({ id }: Record<string, unknown>): string | null {
  return typeof id === "string" ? id : null;
}
