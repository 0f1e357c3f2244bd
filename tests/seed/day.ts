import { type Planned, START, Stage } from "../../seed/crew/stage.ts";
import { standingFor } from "../../shared/aircraft/standingFor.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { RecordLog } from "../spec/recordLog.ts";

/** One aircraft through a day: each session is told what stands at it, and adds to its record when it is over. */
export class Day {
  now = START;
  readonly #type: AircraftType;
  readonly #kept: RecordLog;
  #planned = 0;

  constructor(type: AircraftType) {
    this.#type = type;
    this.#kept = new RecordLog("QX-TST", type.engines.length, START);
  }

  get record() {
    return this.#kept.record;
  }

  /** Plans the next session, with every post held. */
  plan(planned: Planned = {}): Stage {
    this.#planned += 1;
    const id = `s-${this.#planned}`;
    const standing = standingFor(this.#kept.record, id);
    const stage = new Stage(this.#type, "groundPower", { ...planned, id, standing, now: this.now });
    stage.everyoneClaims();
    return stage;
  }

  /** Takes a session's result into the record, and lets some hours pass. */
  after(stage: Stage, hours: number): void {
    this.#kept.takes(stage.state, stage.now);
    this.now = stage.now + hours * 3_600_000;
  }
}
