import { decideRecord, type RecordPerson } from "../../shared/aircraft/decide.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { standingFor } from "../../shared/aircraft/standingFor.ts";
import {
  type RecordAction,
  type RecordEvent,
  recordActionSchema,
} from "../../shared/protocol/recordEvents.ts";
import { FOUR } from "./aircraft.ts";
import { type Plan, START, Story } from "./given.ts";
import { RecordLog } from "./recordLog.ts";

/** One aircraft with its record and the stories of its sessions. Each is told at once what another one changed. */
export class Ramp {
  readonly sessions: Story[] = [];
  now = START;
  /** The house asks that another person inspects a mended defect. */
  inspectsDefects = false;
  readonly #kept = new RecordLog("CH-TST", FOUR.engines.length, START);

  get record(): AircraftRecord {
    return this.#kept.record;
  }

  /** Every event of the record. */
  get log(): RecordEvent[] {
    return this.#kept.events;
  }

  /** Plans the next session of the aircraft, with what stands there. */
  plan(over: Plan = {}): Story {
    const session = `session-${this.sessions.length + 1}`;
    const standing = standingFor(this.record, session);
    const rule = this.inspectsDefects ? ({ inspectsDefects: true } as const) : {};
    const more = { ...over.more, ...rule, standing };
    const story = new Story({ ...over, session, now: this.now, more });
    this.sessions.push(story);
    return this.settle(story);
  }

  /** Takes a story's changes into the record, and tells the other stories, until none has news. */
  settle(story: Story): Story {
    this.now = Math.max(this.now, story.now);
    this.#kept.takes(story.state, this.now);
    for (const other of this.sessions) {
      other.now = Math.max(other.now, this.now);
      const news = other.hear(standingFor(this.record, other.state.id)).events.length > 0;
      if (news) this.settle(other);
    }
    return story;
  }

  /** Makes a person act on the record without a session. */
  act(person: RecordPerson, action: RecordAction) {
    const verdict = decideRecord(this.record, recordActionSchema.parse(action), person, {
      now: this.now,
      inspectsDefects: this.inspectsDefects,
    });
    for (const fact of verdict.facts) this.#kept.add(fact, this.now);
    for (const session of this.sessions) {
      session.now = Math.max(session.now, this.now);
      session.hear(standingFor(this.record, session.state.id));
    }
    return verdict;
  }
}
