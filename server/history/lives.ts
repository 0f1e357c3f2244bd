import { type DefectTrend, defectTrend } from "../../shared/history/lives/defectTrend.ts";
import { equipmentLives, LIVES_OF, type Life, starterLives } from "../../shared/history/lives/lives.ts";
import { type Survival, survivalOf } from "../../shared/history/lives/survival.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock } from "../clock.ts";
import type { RegisterStore } from "../store/register.ts";
import { HOUSE_SESSIONS, type StartHistories } from "./starts.ts";

/** Revisions of a piece of equipment that are read. */
const REVISIONS = 1_000;

/** Lives of equipment, and the extent of the records that they were read from. */
export interface HouseLives {
  all: Survival[];
  /** Most sessions that are read, the newest, and whether older ones were left out. */
  most: number;
  more: boolean;
}

/** The lives of the house's equipment, and the trend of each aircraft's defects. */
export class Lives {
  readonly #register: Pick<RegisterStore, "all" | "history">;
  readonly #starts: Pick<StartHistories, "since" | "of">;
  readonly #records: Pick<AircraftRecords, "defects">;
  readonly #clock: Clock;

  constructor(of: {
    register: Pick<RegisterStore, "all" | "history">;
    starts: Pick<StartHistories, "since" | "of">;
    records: Pick<AircraftRecords, "defects">;
    clock: Clock;
  }) {
    this.#register = of.register;
    this.#starts = of.starts;
    this.#records = of.records;
    this.#clock = of.clock;
  }

  /** @throws StoreFailure */
  async house(): Promise<HouseLives> {
    const { sessions, more } = await this.#starts.since(0);
    const rows = sessions.flatMap((s) => s.rows).sort((a, b) => a.at - b.at || a.seq - b.seq);
    const lives: Record<(typeof LIVES_OF)[number], Life[]> = {
      starter: starterLives(rows),
      cart: [],
      extinguisher: [],
    };
    for (const { id, body } of await this.#register.all("equipment")) {
      if (body.kind !== "cart" && body.kind !== "extinguisher") continue;
      const newest = await this.#register.history("equipment", id, REVISIONS);
      const states = newest.reverse().map(({ at, body: { out } }) => ({ at, out }));
      lives[body.kind].push(...equipmentLives(id, states, rows));
    }
    return { all: LIVES_OF.map((of) => survivalOf(of, lives[of])), most: HOUSE_SESSIONS, more };
  }

  /** @throws StoreFailure */
  async defects(aircraft: string): Promise<DefectTrend> {
    const { rows } = await this.#starts.of(new Set([aircraft]));
    const lives = await this.#records.defects(aircraft);
    return defectTrend(aircraft, lives, rows[0]?.at ?? null, this.#clock.now());
  }
}
