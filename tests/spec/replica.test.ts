import { describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { Action, Command } from "../../shared/protocol/commands.ts";
import {
  COMMAND_LIFE_MS,
  commandFor,
  enqueue,
  isFinal,
  linkUp,
  nextTry,
  type Outbox,
  renew,
  settle,
  settleFrom,
  takeDue,
} from "../../shared/replica/outbox.ts";
import { applyBatch, applySync, behind } from "../../shared/replica/replica.ts";
import { given, replay } from "./given.ts";

const story = given().upTo("starting").started(3);
const { log, state } = story;
const head = state.seq;
const upTo = (n: number) => replay(log.slice(0, n));
const sync = (events: typeof log) => ({ session: state.id, head, serverNow: 0, events });
const whole = (of: typeof state) => ({ session: state.id, head: of.seq, serverNow: 0, state: of });

describe("a panel's copy", () => {
  it("[RPL-1, EVT-2] equals the server's when built event by event", () => {
    const built = applyBatch(null, log);
    expect(built.gap).toBeNull();
    expect(canonical(built.state)).toBe(canonical(state));
    expect(built.fresh).toHaveLength(log.length);
  });

  it("[RPL-1] ignores events that it has", () => {
    const again = applyBatch(upTo(10), log.slice(0, 12));
    expect(again.fresh.map((e) => e.seq)).toEqual([11, 12]);
    expect(applyBatch(upTo(10), log.slice(0, 10))).toEqual({ state: upTo(10), fresh: [], gap: null });
  });

  it("[RPL-1] stops at a gap and names the first missing event", () => {
    const gapped = applyBatch(upTo(10), [...log.slice(10, 12), ...log.slice(13)]);
    expect([gapped.state?.seq, gapped.gap]).toEqual([12, { since: 12 }]);
    expect(applyBatch(null, log.slice(1))).toEqual({ state: null, fresh: [], gap: { since: 0 } });
  });

  it("[RPL-1] sorts a batch that comes in another order", () => {
    expect(canonical(applyBatch(upTo(10), [...log.slice(10)].reverse()).state)).toBe(canonical(state));
  });

  it("[RPL-1] ignores another session's events", () => {
    const foreign = log.slice(10).map((e) => ({ ...e, session: "other" }));
    expect(applyBatch(upTo(10), foreign)).toEqual({ state: upTo(10), fresh: [], gap: null });
  });

  it("[RPL-1] asks for the whole state after an event that it cannot apply", () => {
    const [first] = log;
    if (!first) throw new Error("the log has a plan");
    const strange = { ...first, seq: 11 };
    expect(applyBatch(upTo(10), [strange])).toEqual({ state: upTo(10), fresh: [], gap: { since: 0 } });
  });

  it("[RPL-1] takes over an answer to watch, and names what is still missing", () => {
    expect(canonical(applySync(upTo(10), sync(log.slice(10)), 10).state)).toBe(canonical(state));
    expect(applySync(upTo(10), sync(log.slice(10, 20)), 10).gap).toEqual({ since: 20 });
    expect(applySync(null, whole(state), 0)).toEqual({ state, fresh: [], gap: null });
  });

  it("[RPL-2] ignores an older answer that comes late", () => {
    expect(applySync(upTo(20), whole(upTo(10)), 5).state?.seq).toBe(20);
    expect(applySync(upTo(20), { ...sync(log.slice(5, 10)), head: 10 }, 5).state?.seq).toBe(20);
  });

  it("[RPL-2] asks a server that holds fewer events for its whole record, and takes it over", () => {
    const other = { ...sync([]), head: 10 };
    expect(applySync(upTo(20), other, 20).gap).toEqual({ since: 0 });
    expect(applySync(upTo(20), whole(upTo(10)), 20).state?.seq).toBe(10);
    expect(applySync(upTo(20), whole(upTo(10)), 0).state?.seq).toBe(10);
  });

  it("[RPL-1] finds a gap by a beat with a newer head, and none by an older one", () => {
    expect(behind(upTo(10), 12)).toEqual({ since: 10 });
    expect(behind(upTo(10), 10)).toBeNull();
    expect(behind(upTo(10), 9)).toBeNull();
    expect(behind(null, 1)).toEqual({ since: 0 });
  });
});

const READY: Action = { type: "send", kind: "readyToStart", engine: 3, channel: "panel" };
const HOLD: Action = { type: "send", kind: "hold", channel: "panel" };
let ids = 0;
const make = (action: Action, serverNow: number | null = 0): Command => {
  ids += 1;
  const id = `00000000-0000-4000-8000-${String(ids).padStart(12, "0")}`;
  const command = commandFor({ id, session: "s", action, clientAt: 0 }, serverNow);
  if (!command) throw new Error("no clock yet");
  return command;
};
const box = (...commands: Command[]) => commands.reduce<Outbox>((o, c) => enqueue(o, c, 0), []);
const sentAt = (outbox: Outbox, now: number, serverNow: number | null = now) =>
  takeDue(outbox, now, serverNow);

describe("a panel's outbox", () => {
  it("[RPL-3] stores a command once, however often it is added", () => {
    const command = make(READY);
    expect(box(command, command)).toEqual([{ command, tries: 0, nextAt: 0, lapsed: false }]);
  });

  it("[RPL-3] sends at 0, 1, 3, 7, 15 and 23 s with the same id", () => {
    const command = make(HOLD);
    let outbox = box(command);
    const tries: number[] = [];
    for (let now = 0; now <= 24_000; now += 500) {
      const due = sentAt(outbox, now);
      outbox = due.outbox;
      for (const sent of due.send) {
        expect(sent).toEqual(command);
        tries.push(now);
      }
    }
    expect(tries).toEqual([0, 1_000, 3_000, 7_000, 15_000, 23_000]);
    expect(nextTry(outbox)).toBe(31_000);
  });

  it("[RPL-3] sends at once when the connection is back", () => {
    const after = sentAt(sentAt(sentAt(box(make(HOLD)), 0).outbox, 1_000).outbox, 3_000).outbox;
    expect(sentAt(after, 4_000).send).toEqual([]);
    expect(sentAt(linkUp(after, 4_000), 4_000).send).toHaveLength(1);
  });

  it("[RPL-4] sends ordinary commands one at a time in order, and stops first and at once", () => {
    const [first, second, hold] = [make(READY), make(READY), make(HOLD)];
    const due = sentAt(box(first, second, hold), 0);
    expect(due.send.map((c) => c.id)).toEqual([hold.id, first.id]);
    expect(sentAt(due.outbox, 500).send).toEqual([]);
    expect(sentAt(settle(due.outbox, first.id), 500).send).toEqual([second]);
  });

  it("[RPL-5] sends an ordinary command no more after its time, and sends the next", () => {
    const [old, next] = [make(READY, 0), make(READY, 10_000)];
    expect(old.validUntil).toBe(COMMAND_LIFE_MS);
    const before = sentAt(box(old, next), 0, COMMAND_LIFE_MS - 1);
    expect(before.send).toEqual([old]);
    const at = sentAt(box(old, next), 0, COMMAND_LIFE_MS);
    expect(at.send).toEqual([next]);
    expect(at.outbox.map((e) => e.lapsed)).toEqual([true, false]);
    expect(sentAt(at.outbox, 86_400_000, 0).send).not.toContain(old);
  });

  it("[RPL-5] sends a stop at any age, and before the clocks were compared", () => {
    expect(commandFor({ id: "x", session: "s", action: READY, clientAt: 0 }, null)).toBeNull();
    const hold = make(HOLD, null);
    expect(hold.validUntil).toBeUndefined();
    expect(sentAt(box(make(READY), hold), 0, null).send).toEqual([hold]);
    expect(sentAt(box(hold), 86_400_000).send).toEqual([hold]);
  });

  it("[RPL-5] lets the person send a lapsed command as a new one, and keeps one that has not lapsed", () => {
    const old = make(READY, 0);
    const lapsed = sentAt(box(old), 0, COMMAND_LIFE_MS).outbox;
    const fresh = make(READY, COMMAND_LIFE_MS);
    expect(sentAt(renew(lapsed, old.id, fresh, 20), 20, COMMAND_LIFE_MS).send).toEqual([fresh]);
    expect(renew(box(old), old.id, fresh, 20)).toEqual(box(old));
    expect(nextTry(lapsed)).toBeNull();
  });

  it("[RPL-6] removes a command when an event with its id comes", () => {
    const recorded = log.find((e) => e.command !== null);
    if (!recorded?.command) throw new Error("the log holds commands");
    const command = { ...make(READY), id: recorded.command };
    expect(settleFrom(box(command), log.slice(0, 1))).toHaveLength(recorded.seq === 1 ? 0 : 1);
    expect(settleFrom(box(command), log)).toEqual([]);
  });

  it("[RPL-3] ends a command at a permanent error, and sends it again after any other", () => {
    expect((["malformed", "tooLarge", "pinNeeded", "noSuchSession"] as const).every(isFinal)).toBe(true);
    expect((["tooMany", "notAvailable", "signInNeeded", "protocolMismatch"] as const).some(isFinal)).toBe(
      false,
    );
  });
});
