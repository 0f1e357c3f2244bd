import type { Clock, Timers } from "../clock.ts";
import type { LastHeard } from "../many/bus.ts";
import type { PeerPresence } from "../many/peer-presence.ts";
import type { LiveSession } from "../sessions/live-session.ts";
import { every } from "./every.ts";
import { type Io, type PanelSocket, sessionRoom } from "./io.ts";
import { LIMITS } from "./limits.ts";
import { heardOf, linksOf } from "./links.ts";

interface BeatsDeps {
  io: Io;
  clock: Clock;
  timers: Timers;
  peers: PeerPresence;
  /** Tells the other servers, per session, which posts this server hears. */
  tellOthers(sessions: Record<string, LastHeard>): void;
}

/**
 * Sends each watched session's panels a regular beat: the head of the record and the state of every post's link. Each
 * session has its own timer from its first watcher on: with one timer for all, a command in that moment would wait
 * for a thousand panels.
 */
export class Beats {
  readonly #deps: BeatsDeps;
  readonly #watched = new Map<string, { session: LiveSession; stop(): void }>();
  /** Beats collected for the next message to the other servers. */
  #toTell: Record<string, LastHeard> = {};
  #stopTelling: (() => void) | null = null;

  constructor(deps: BeatsDeps) {
    this.#deps = deps;
  }

  /** Sessions that at least one panel watches. */
  get sessions(): LiveSession[] {
    return [...this.#watched.values()].map(({ session }) => session);
  }

  /** The panels that watch a session on this server. */
  watching(session: string): PanelSocket[] {
    const { sockets } = this.#deps.io;
    return [...(sockets.adapter.rooms.get(sessionRoom(session)) ?? [])].flatMap(
      (id) => sockets.sockets.get(id) ?? [],
    );
  }

  /** Starts the session's beat if it has none, and sends one beat at once. */
  watched(session: LiveSession): void {
    const { id } = session.state;
    if (!this.#watched.has(id)) {
      const stop = every(this.#deps.timers, LIMITS.beatMs, () => this.#beat(session, "regular"));
      this.#watched.set(id, { session, stop });
    }
    this.#beat(session, "now");
  }

  /** Sends a beat at once to every session whose room a lost panel was in. */
  gone(rooms: ReadonlySet<string>): void {
    for (const { session } of [...this.#watched.values()])
      if (rooms.has(sessionRoom(session.state.id))) this.#beat(session, "now");
  }

  close(): void {
    for (const { stop } of this.#watched.values()) stop();
    this.#watched.clear();
    this.#stopTelling?.();
  }

  /** @param when a regular beat is volatile: it may be dropped on the way */
  #beat({ state }: LiveSession, when: "regular" | "now"): void {
    const { io, clock, peers } = this.#deps;
    const panels = this.watching(state.id);
    const heard = heardOf(state, panels);
    this.#tell(state.id, heard, when);
    if (panels.length === 0) {
      this.#watched.get(state.id)?.stop();
      this.#watched.delete(state.id);
    }
    const room = io.to(sessionRoom(state.id));
    const links = linksOf(heard, peers.of(state.id, clock.now()));
    const notice = { session: state.id, head: state.seq, serverNow: clock.now(), links };
    (when === "regular" ? room.volatile : room).emit("beat", notice);
  }

  #tell(session: string, heard: LastHeard, when: "regular" | "now"): void {
    if (when === "now") {
      // Drop the pending beat: it is older than this one.
      delete this.#toTell[session];
      this.#deps.tellOthers({ [session]: heard });
      return;
    }
    this.#toTell[session] = heard;
    this.#stopTelling ??= this.#deps.timers.after(LIMITS.tellMs, () => {
      this.#deps.tellOthers(this.#toTell);
      this.#toTell = {};
      this.#stopTelling = null;
    });
  }
}
