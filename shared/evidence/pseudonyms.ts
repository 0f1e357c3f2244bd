import type { SessionEvent } from "../protocol/events.ts";
import type { Digest } from "./chain.ts";

// People's names are not in the sealed bytes: a salted digest stands in their place. Whoever holds name and salt can
// show whose it is; once the salt is gone nobody can, and every byte of the record still verifies.

/** The name and salt behind a pseudonym. */
export interface Opening {
  name: string;
  /** Chance nobody can guess: 128 bits, hexadecimal. */
  salt: string;
}

const PSEUDONYMS = /"(person:[0-9a-f]{64})"/g;

/** Returns the pseudonym of a name: a commitment, binding by the digest and hiding by the salt. */
export function pseudonymOf({ name, salt }: Opening, digest: Digest): string {
  return `person:${digest(`chockside name ${salt} ${name}`)}`;
}

/** Returns the pseudonyms in sealed bytes. */
export function pseudonymsIn(body: string): Set<string> {
  return new Set([...body.matchAll(PSEUDONYMS)].map((m) => m[1] ?? ""));
}

/** Returns the sealed bytes with names instead of pseudonyms, for reading only: their hash is another. */
export function withNames(body: string, nameOf: (pseudonym: string) => string): string {
  return body.replace(PSEUDONYMS, (_, pseudonym: string) => JSON.stringify(nameOf(pseudonym)));
}

/** Returns the words for an erased person. They show that it is the same person each time, without the name. */
export function erasedName(pseudonym: string): string {
  return `Erased person ${pseudonym.slice("person:".length, "person:".length + 6)}`;
}

/**
 * The event with every person's name replaced by what `to` says of it: in the actor, the crew, the reporters of
 * conditions, the writers of defects and those a refusal names. `id` is the person's where it stands beside the name.
 */
export function mapNames(event: SessionEvent, to: (name: string, id: string | null) => string): SessionEvent {
  return mapped(event, to) as SessionEvent;
}

/** Keys that can hold a name. A refusal's `found` may hold the name of the person who prevents the action. */
const NAMES = new Set(["name", "found"]);

/** Members that hold no person's name but may hold others: the type's gauges have names too. */
const WITHOUT = new Set(["aircraftType", "action"]);

/** Copies only the parts that change, because most of an event holds no name. */
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
