import { personOf } from "../auth/identity.ts";
import type { Rehearsals } from "../rehearsals/rehearsals.ts";
import type { Beats } from "./beats.ts";
import { type PanelSocket, sessionRoom } from "./io.ts";

/**
 * Cuts panels off from a rehearsal while a fault of it says so: they hear nothing of it, and nothing they send there
 * arrives. The socket itself stays, because the same person may be called to a real start on it.
 */
export class RehearsalCuts {
  readonly #rehearsals: Pick<Rehearsals, "isCutOff" | "playing">;
  readonly #beats: Pick<Beats, "watching" | "again">;
  /** The panels that were taken out of a rehearsal's room, each with that rehearsal. */
  readonly #out = new Map<PanelSocket, string>();

  constructor(
    rehearsals: Pick<Rehearsals, "isCutOff" | "playing">,
    beats: Pick<Beats, "watching" | "again">,
  ) {
    this.#rehearsals = rehearsals;
    this.#beats = beats;
  }

  isCutOff(session: string, { data }: PanelSocket): boolean {
    return this.#rehearsals.isCutOff(session, personOf(data.identity));
  }

  /** The panel watches that rehearsal no more: it is not brought back. */
  forget(session: string, panel: PanelSocket): void {
    if (this.#out.get(panel) === session) this.#out.delete(panel);
  }

  /** Takes the panels out that are cut off now, and brings those back that are no more. */
  look(): void {
    for (const [panel, session] of this.#out) {
      if (panel.connected && this.isCutOff(session, panel)) continue;
      this.#out.delete(panel);
      if (!panel.connected) continue;
      // Its next beat tells the panel what it missed.
      void panel.join(sessionRoom(session));
      this.#beats.again(session);
    }
    for (const id of this.#rehearsals.playing)
      for (const panel of this.#beats.watching(id)) {
        if (!this.isCutOff(id, panel)) continue;
        void panel.leave(sessionRoom(id));
        this.#out.set(panel, id);
        this.#beats.again(id);
      }
  }
}
