import { isOver } from "../../shared/session/state.ts";
import { tell, tellField, tellSupervised } from "../../shared/session/step.ts";
import type { SessionsDeps } from "./deps.ts";
import type { FieldReports } from "./field-reports.ts";
import type { HeldSessions } from "./held-sessions.ts";
import type { Supervised } from "./supervised.ts";

/** Tells the open sessions what others reported of their field and aircraft, and where their supervisor is needed too. */
export class News {
  readonly #deps: SessionsDeps;
  readonly #held: HeldSessions;
  readonly #field: FieldReports;
  readonly #supervised: Supervised;

  constructor(deps: SessionsDeps, held: HeldSessions, field: FieldReports, supervised: Supervised) {
    this.#deps = deps;
    this.#held = held;
    this.#field = field;
    this.#supervised = supervised;
  }

  /** Tells every open session on a field of its lightning and weather. */
  async ofField(place: string): Promise<void> {
    for (const { id } of this.#field.openAt(place)) {
      try {
        const live = await this.#held.get(id);
        if (!this.#field.news(live.state)) continue;
        await live.run((draft) => {
          const field = this.#field.news(draft.state);
          if (field) draft.take(tellField(draft.state, field, this.#deps.clock.now()));
        });
      } catch (error) {
        this.#deps.log.error({ err: error, session: id }, "a session could not be told of its field");
      }
    }
  }

  /** Tells these sessions which other aircraft their supervisor supervises. */
  async ofSupervisor(sessions: readonly string[]): Promise<void> {
    for (const id of sessions) {
      try {
        const live = await this.#held.get(id);
        if (isOver(live.state) || !this.#supervised.news(live.state)) continue;
        await live.run((draft) => {
          const also = this.#supervised.news(draft.state);
          if (also) draft.take(tellSupervised(draft.state, also, this.#deps.clock.now()));
        });
      } catch (error) {
        this.#deps.log.error({ err: error, session: id }, "a session could not be told of its supervisor");
      }
    }
  }

  /** Tells every open session of an aircraft what its record says from elsewhere. */
  async ofAircraft(aircraft: string): Promise<void> {
    const { clock, log, records } = this.#deps;
    // Telling a session makes the record move again. Between two rounds the server hears its panels, whatever happens.
    await new Promise((resolve) => setImmediate(resolve));
    for (const id of this.#held.openAt(aircraft)) {
      try {
        const live = await this.#held.get(id);
        if (isOver(live.state) || !records.news(live.state)) continue;
        await live.run((draft) => {
          const standing = records.news(draft.state);
          if (standing) draft.take(tell(draft.state, standing, clock.now()));
        });
      } catch (error) {
        log.error({ err: error, session: id }, "a session could not be told what stands at its aircraft");
      }
    }
  }
}
