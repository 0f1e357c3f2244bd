import type { SessionEvent } from "../protocol/events.ts";
import type { Digest } from "./chain.ts";

// People's names are not in the sealed bytes: a salted digest stands in their place. Whoever holds name and salt can
// show whose it is; once the salt is gone nobody can, and every byte of the record still verifies.

/** What opens a veiled name. */
export interface Opening {
  name: string;
  /** Chance nobody can guess: 128 bits, hexadecimal. */
  salt: string;
}

const VEILED = /^person:[0-9a-f]{64}$/;
const VEILS = /"(person:[0-9a-f]{64})"/g;

/** What stands in the sealed bytes in a name's place: a commitment, binding by the digest and hiding by the salt. */
export function veilOf({ name, salt }: Opening, digest: Digest): string {
  return `person:${digest(`chockside name ${salt} ${name}`)}`;
}

export function isVeil(text: string): boolean {
  return VEILED.test(text);
}

/** The veils in sealed bytes. */
export function veilsIn(body: string): Set<string> {
  return new Set([...body.matchAll(VEILS)].map((m) => m[1] ?? ""));
}

/** What is shown for somebody whose name is known no longer: not who, but that it is the same person each time. */
export function erasedName(veil: string): string {
  return `Erased person ${veil.slice("person:".length, "person:".length + 6)}`;
}

/**
 * The event with every person's name replaced by what `to` says of it: in the actor, the crew, the reporters of
 * conditions, the writers of defects and those a refusal names. `id` is the person's where it stands beside the name.
 */
export function mapNames(event: SessionEvent, to: (name: string, id: string | null) => string): SessionEvent {
  return mapped(event, to) as SessionEvent;
}

/** Where names stand. A refusal says in `found` who stands in the way, among other things it may say. */
const NAMES = new Set(["name", "found"]);

/** Members that hold no person's name but may hold others: the type's gauges have names too. */
const WITHOUT = new Set(["aircraftType", "action"]);

function mapped(value: unknown, to: (name: string, id: string | null) => string): unknown {
  if (Array.isArray(value)) return value.map((v) => mapped(v, to));
  if (typeof value !== "object" || value === null) return value;
  const { id } = value as { id?: unknown };
  return Object.fromEntries(
    Object.entries(value).map(([key, v]) => {
      if (NAMES.has(key) && typeof v === "string") return [key, to(v, typeof id === "string" ? id : null)];
      return [key, WITHOUT.has(key) ? v : mapped(v, to)];
    }),
  );
}
