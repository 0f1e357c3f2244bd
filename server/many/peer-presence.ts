import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { LastHeard } from "./bus.ts";

/** A server that was silent for longer counts as gone, with its panels. Milliseconds. */
const GONE_MS = 5_000;

/** Posts whose holders are heard by other servers. */
export class PeerPresence {
  readonly #servers = new Map<string, Map<string, { heard: LastHeard; at: number }>>();

  /** @param now this server's time at the receipt of the message: the other server's clock may differ */
  heard(server: string, sessions: Readonly<Record<string, LastHeard>>, now: number): void {
    const known = this.#servers.get(server) ?? new Map<string, { heard: LastHeard; at: number }>();
    this.#servers.set(server, known);
    for (const [session, heard] of Object.entries(sessions)) known.set(session, { heard, at: now });
    for (const [session, { at }] of known) if (now - at > GONE_MS) known.delete(session);
  }

  /** Returns how many other servers told of their panels lately. */
  count(now: number): number {
    const newest = (known: Map<string, { at: number }>) =>
      Math.max(0, ...[...known.values()].map((k) => k.at));
    return [...this.#servers.values()].filter((known) => now - newest(known) <= GONE_MS).length;
  }

  /** Returns when another running server last heard each post's holder. */
  of(session: string, now: number): LastHeard {
    const latest: LastHeard = {};
    const add = (post: Post, at: number | undefined) => {
      if (at !== undefined) latest[post] = Math.max(at, latest[post] ?? 0);
    };
    for (const known of this.#servers.values()) {
      const told = known.get(session);
      if (told && now - told.at <= GONE_MS) for (const post of POSTS) add(post, told.heard[post]);
    }
    return latest;
  }
}
