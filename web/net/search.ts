import type { Written, WrittenKind } from "../../shared/history/written/written.ts";
import { api } from "./app.ts";

export interface Found {
  /** The newest first. */
  found: Written[];
  /** The place at which the next page begins; null on the last one. */
  next: string | null;
  /** Sessions that the server's index has not read yet. */
  unread: number;
}

/** The question; an empty text narrows nothing. */
export interface Asked {
  q: string;
  aircraft: string;
  kind: WrittenKind | "";
  from: string;
  to: string;
}

const KEYS = ["q", "aircraft", "kind", "from", "to"] as const satisfies readonly (keyof Asked)[];

/** Returns what an address asks for. */
export function askedIn(address: string): Asked {
  const given = new URLSearchParams(address);
  return Object.fromEntries(KEYS.map((key) => [key, given.get(key) ?? ""])) as unknown as Asked;
}

/** Returns the address of a question, without what narrows nothing. */
export function addressOf(asked: Asked): string {
  const given = KEYS.filter((key) => asked[key].trim() !== "");
  return String(new URLSearchParams(given.map((key) => [key, asked[key].trim()])));
}

/** Asks for a page of what was written. */
export function search(asked: Asked, before: string | null): Promise<Found> {
  const more = before === null ? "" : `&before=${encodeURIComponent(before)}`;
  return api.json<Found>("GET", `/api/search?${addressOf(asked)}${more}`);
}
