import { randomUUID } from "node:crypto";
import type { RegisterEntry } from "../shared/house/register.ts";
import type { SessionEvent } from "../shared/protocol/events.ts";
import type { Fitted } from "../shared/protocol/fitted.ts";
import type { SessionState } from "../shared/session/state.ts";
import type { AircraftType } from "../shared/types/schema.ts";
import type { Clock } from "./clock.ts";
import type { Pseudonyms } from "./evidence/names.ts";
import type { randomIds } from "./ids.ts";
import type { Directory } from "./store/directory.ts";
import type { EventStore } from "./store/events.ts";
import { storeSession } from "./store-session.ts";

/** The program that plays the year. */
export interface YearProgram {
  starts: readonly { aircraft: string; at: number }[];
  play(
    nth: number,
    of: { id: string; type: AircraftType; fitted: Fitted[] },
  ): Promise<{ state: SessionState; events: readonly SessionEvent[] }>;
}

/** The progress of the year. */
export interface YearProgress {
  done: boolean;
  /** The aircraft that have one, once it is done. */
  aircraft: string[];
  /** Starts made so far, and all of them; 0 of 0 before the first. */
  made: number;
  of: number;
}

interface Needs {
  store: Pick<EventStore, "append" | "sessionByPlan">;
  names: Pseudonyms;
  directory: Directory;
  clock: Clock;
  ids: Pick<typeof randomIds, "code">;
}

/**
 * An invented year of starts in the demo: whole sessions, played by the scripted crew through the same core as any
 * other, sealed and stored. It is made once, when somebody asks for it.
 */
export class DemoYear {
  readonly #needs: Needs;
  readonly #load: (now: number) => Promise<YearProgram>;
  #making: Promise<void> | null = null;
  #failed: Error | null = null;
  #done = false;
  #at: Omit<YearProgress, "done"> = { aircraft: [], made: 0, of: 0 };

  /** @param load loads the program, which a server that makes no year never needs */
  constructor(needs: Needs, load: (now: number) => Promise<YearProgram>) {
    this.#needs = needs;
    this.#load = load;
  }

  /**
   * Begins to make what is still missing of the year, and returns how far it is. Several who ask share it.
   * @throws the error that broke off the making, once
   */
  progress(): YearProgress {
    const failed = this.#failed;
    this.#failed = null;
    if (failed) throw failed;
    if (!this.#done && !this.#making) {
      this.#making = this.#make()
        .then((aircraft) => {
          this.#done = true;
          this.#at = { ...this.#at, aircraft };
        })
        .catch((error: Error) => {
          this.#failed = error;
        })
        .finally(() => {
          this.#making = null;
        });
    }
    return { ...this.#at, done: this.#done };
  }

  /** Resolves once nothing is being made. */
  async idle(): Promise<void> {
    await this.#making;
  }

  async #make(): Promise<string[]> {
    const { store, names, directory, clock, ids } = this.#needs;
    const { starts, play } = await this.#load(clock.now());
    const made = new Set<string>();
    for (const [nth, { aircraft, at }] of starts.entries()) {
      // The plan's id names the start, so that a year that was broken off goes on where it was.
      const planCommand = `invented-year-${aircraft}-${nth}`;
      const entry = await this.#fitted(aircraft);
      const type = entry && (await directory.type(entry.body.typeId, entry.body.typeVersion))?.type;
      if (!entry || !type) continue;
      made.add(aircraft);
      this.#at = { ...this.#at, made: nth, of: starts.length };
      if ((await store.sessionByPlan(planCommand)) !== null) continue;
      const session = await play(nth, { id: randomUUID(), type, fitted: entry.body.fitted });
      await storeSession({ store, names }, session, { code: ids.code(), planCommand, createdAt: at });
    }
    return [...made];
  }

  /** Returns the aircraft's entry, after giving its engines invented serial numbers if it has none. */
  async #fitted(aircraft: string): Promise<RegisterEntry<"aircraft"> | null> {
    const { register } = this.#needs.directory;
    const entry = await register.one("aircraft", aircraft);
    if (!entry || entry.body.fitted.length > 0) return entry;
    const of = await this.#needs.directory.type(entry.body.typeId, entry.body.typeVersion);
    const fitted = (of?.type.engines ?? []).map(({ n }) => ({
      n,
      engine: { serial: `${aircraft}-E${n}`, hours: null },
      propeller: { serial: null, hours: null },
      starter: null,
    }));
    const next = {
      ...entry,
      revision: entry.revision + 1,
      at: this.#needs.clock.now(),
      by: "program",
      reason: "Invented serial numbers for the invented year",
      body: { ...entry.body, fitted },
    };
    return (await register.append([next])) ? next : register.one("aircraft", aircraft);
  }
}
