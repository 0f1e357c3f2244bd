import { contributionOf } from "../../shared/aircraft/contribution.ts";
import { decideRecord, type RecordPerson } from "../../shared/aircraft/decide.ts";
import { evolveRecord } from "../../shared/aircraft/evolve.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { standingFor } from "../../shared/aircraft/standingFor.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import {
  type RecordAction,
  type RecordEvent,
  type RecordFact,
  recordActionSchema,
  recordEventSchema,
} from "../../shared/protocol/recordEvents.ts";
import { isOver } from "../../shared/session/state.ts";
import { FOUR } from "./aircraft.ts";
import { type Plan, START, Story } from "./given.ts";

/** One aircraft with its record and the stories of its sessions. Each is told at once what another one changed. */
export class Ramp {
  record: AircraftRecord;
  readonly sessions: Story[] = [];
  /** Every event of the record. */
  readonly log: RecordEvent[] = [];
  now = START;

  constructor() {
    this.record = evolveRecord(
      null,
      this.#event(1, { type: "opened", aircraft: "CH-TST", engines: FOUR.engines.length }),
    );
  }

  #event(seq: number, fact: RecordFact) {
    const event = {
      v: 1,
      session: "record-CH-TST",
      seq,
      at: this.now,
      actor: { kind: "system" },
      command: null,
      digest: null,
      clientAt: null,
      cause: null,
      fact,
    };
    const parsed = recordEventSchema.parse(JSON.parse(canonical(event)));
    this.log.push(parsed);
    return parsed;
  }

  #add(fact: RecordFact): void {
    this.record = evolveRecord(this.record, this.#event(this.record.seq + 1, fact));
  }

  /** Plans the next session of the aircraft, with what stands there. */
  plan(over: Plan = {}): Story {
    const session = `session-${this.sessions.length + 1}`;
    const standing = standingFor(this.record, session);
    const story = new Story({ ...over, session, now: this.now, more: { ...over.more, standing } });
    this.sessions.push(story);
    return this.settle(story);
  }

  /** Takes a story's changes into the record, and tells the other stories, until none has news. */
  settle(story: Story): Story {
    this.now = Math.max(this.now, story.now);
    this.#add({
      type: "contributed",
      session: story.state.id,
      through: story.state.seq,
      over: isOver(story.state),
      contribution: contributionOf(story.state),
    });
    for (const other of this.sessions) {
      other.now = Math.max(other.now, this.now);
      const news = other.hear(standingFor(this.record, other.state.id)).events.length > 0;
      if (news) this.settle(other);
    }
    return story;
  }

  /** Makes a person act on the record without a session. */
  act(person: RecordPerson, action: RecordAction) {
    const verdict = decideRecord(this.record, recordActionSchema.parse(action), person, this.now);
    for (const fact of verdict.facts) this.#add(fact);
    for (const session of this.sessions) {
      session.now = Math.max(session.now, this.now);
      session.hear(standingFor(this.record, session.state.id));
    }
    return verdict;
  }
}
