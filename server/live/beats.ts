import type { Beat } from "../../shared/protocol/wire.ts";
import type { Clock, Timers } from "../clock.ts";
import type { LastHeard } from "../many/bus.ts";
import type { PeerPresence } from "../many/peer-presence.ts";
import type { LiveSession } from "../sessions/live-session.ts";
import { every } from "./every.ts";
import { type Io, type PanelSocket, sessionIn, sessionRoom } from "./io.ts";
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

interface Watched {
  session: LiveSession;
  /** Stops the regular beat. */
  stop(): void;
  /** Stops the beat that is due soon; null when none is. */
  stopSoon: (() => void) | null;
}

/**
 * Sends each watched session's panels a regular beat: the head of the record and the state of every post's link. Each
 * session has its own timers from its first watcher on: with one timer for all, a command in that moment would wait
 * for a thousand panels.
 */
export class Beats {
  readonly #deps: BeatsDeps;
  readonly #watched = new Map<string, Watched>();
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

  /** Starts the session's beat if it has none. Tells the new panel at once, and the others soon. */
  watched(session: LiveSession, panel: PanelSocket): void {
    const { id } = session.state;
    if (!this.#watched.has(id)) {
      const stop = every(this.#deps.timers, LIMITS.beatMs, () => this.#beat(session, "regular"));
      this.#watched.set(id, { session, stop, stopSoon: null });
    }
    panel.emit("beat", this.#noticeOf(session, heardOf(session.state, this.watching(id))));
    this.#soon(id);
  }

  /** Tells the panels of every session soon whose room a lost panel was in. */
  gone(rooms: ReadonlySet<string>): void {
    for (const room of rooms) {
      const session = sessionIn(room);
      if (session !== null) this.#soon(session);
    }
  }

  /** Tells a session's panels soon, because one was taken out or brought back. */
  again(session: string): void {
    this.#soon(session);
  }

  /** Sends one beat for all panels that come and go within a short time: a crowd's beats would stall a command. */
  #soon(id: string): void {
    const watched = this.#watched.get(id);
    if (!watched) return;
    watched.stopSoon ??= this.#deps.timers.after(LIMITS.beatSoonMs, () => {
      watched.stopSoon = null;
      this.#beat(watched.session, "now");
    });
  }

  close(): void {
    for (const watched of this.#watched.values()) stopAll(watched);
    this.#watched.clear();
    this.#stopTelling?.();
  }

  /** @param when a regular beat is volatile: it may be dropped on the way */
  #beat(session: LiveSession, when: "regular" | "now"): void {
    const { id } = session.state;
    const panels = this.watching(id);
    const heard = heardOf(session.state, panels);
    this.#tell(id, heard);
    if (panels.length === 0) {
      const watched = this.#watched.get(id);
      if (watched) stopAll(watched);
      this.#watched.delete(id);
      return;
    }
    const room = this.#deps.io.to(sessionRoom(id));
    (when === "regular" ? room.volatile : room).emit("beat", this.#noticeOf(session, heard));
  }

  #noticeOf({ state }: LiveSession, heard: LastHeard): Beat {
    const { clock, peers } = this.#deps;
    const serverNow = clock.now();
    return {
      session: state.id,
      head: state.seq,
      serverNow,
      links: linksOf(heard, peers.of(state.id, serverNow)),
    };
  }

  #tell(session: string, heard: LastHeard): void {
    this.#toTell[session] = heard;
    this.#stopTelling ??= this.#deps.timers.after(LIMITS.tellMs, () => {
      this.#deps.tellOthers(this.#toTell);
      this.#toTell = {};
      this.#stopTelling = null;
    });
  }
}

function stopAll({ stop, stopSoon }: Watched): void {
  stop();
  stopSoon?.();
}
