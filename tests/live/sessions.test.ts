import { randomUUID } from "node:crypto";
import { describe, expect, it } from "vitest";
import { LIMITS } from "../../server/live/limits.ts";
import { ANSWERED_KEPT } from "../../server/sessions/recorded.ts";
import { type StoredEvent, StoreFailure } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import type { Action, Command } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import type { Person } from "../../shared/session/step.ts";
import { HandClock, START, settle } from "../http/hand-clock.ts";
import { planned, signIn, type TestServer, testServer } from "../http/test-server.ts";
import { GatedStore } from "./gated-store.ts";

const FAY: Person = { id: "fay", name: "Fay", device: "fay-tablet", mayHold: POSTS };
const BO: Person = { id: "bo", name: "Bo", device: "bo-tablet", mayHold: ["fireGuard"] };
const HOLD: Action = { type: "send", kind: "hold", channel: "panel" };
/** Refused, because nothing is ready. */
const CLEAR: Action = { type: "send", kind: "clearToStart", engine: 1, channel: "panel" };

const plan = async (test: TestServer) => (await planned(test.app, await signIn(test.app, "fay"))).id;
const say = (test: TestServer, session: string, action: Action, person = FAY) => {
  const command: Command = { v: 1, id: randomUUID(), session, clientAt: 1, action };
  return test.services.sessions.command(person, command);
};
const facts = async (test: TestServer, session: string) =>
  (await test.services.store.read(session, 0, 1_000)).map((e) => readSealed(e.body).event.fact.type);
const stateOf = async (test: TestServer, session: string) =>
  (await test.services.sessions.get(session)).state;

/** A store that does not answer for the events of one session until it is opened. */
class SlowReads extends MemoryEventStore {
  #session = "";
  #opened: Promise<void> = Promise.resolve();
  open: () => void = () => {};

  shut(session: string): void {
    this.#session = session;
    this.#opened = new Promise((resolve) => {
      this.open = resolve;
    });
  }

  override async read(session: string, since: number, limit: number) {
    if (session === this.#session) await this.#opened;
    return super.read(session, since, limit);
  }
}

describe("a restart", () => {
  it("[SRV-17] is recorded in every session that is not over, and in no other", async () => {
    const store = new MemoryEventStore();
    const first = await testServer({ store });
    const [open, over] = [await plan(first), await plan(first)];
    await say(first, over, { type: "claimPost", post: "supervisor" });
    await say(first, over, { type: "abandon", reason: "weather" });
    await say(first, open, HOLD);
    const before = await stateOf(first, open);
    const ended = await facts(first, over);
    await first.close();

    const second = await testServer({ store });
    const after = await stateOf(second, open);
    expect((await facts(second, open)).slice(before.seq)).toContain("restarted");
    expect(await facts(second, over)).toEqual(ended);
    expect(after.epoch).toBeGreaterThan(before.epoch);
    expect(after.holds).toEqual(before.holds);
    await second.close();
  });

  it("[SRV-20] lets a stop act before the other sessions are read, and nothing that raises confidence", async () => {
    const store = new SlowReads();
    const first = await testServer({ store });
    const [near, far] = [await plan(first), await plan(first)];
    await say(first, near, { type: "claimPost", post: "supervisor" });
    await first.close();

    store.shut(far);
    const second = await testServer({ store });
    let raised = false;
    const claim = say(second, near, { type: "claimPost", post: "fireGuard" }, BO).then((answer) => {
      raised = true;
      return answer;
    });
    expect(await say(second, near, HOLD)).toMatchObject({ status: "accepted" });
    expect(await say(second, near, { type: "send", kind: "chocksOut", channel: "panel" })).toMatchObject({
      status: "accepted",
    });
    await settle();
    expect(raised).toBe(false);
    expect((await facts(second, near)).filter((type) => type === "restarted")).toHaveLength(1);
    store.open();
    expect(await claim).toMatchObject({ status: "accepted" });
    expect(await facts(second, far)).toContain("restarted");
    await second.close();
  });

  it("[SRV-20] that cannot be recorded leaves its session not available until it can", async () => {
    const store = new GatedStore();
    const first = await testServer({ store });
    const session = await plan(first);
    await first.close();

    store.broken = true;
    const second = await testServer({ store });
    await expect(stateOf(second, session)).rejects.toThrow(StoreFailure);
    await expect(say(second, session, HOLD)).rejects.toThrow(StoreFailure);
    store.broken = false;
    expect(await say(second, session, HOLD)).toMatchObject({ status: "accepted" });
    expect((await facts(second, session)).slice(0, 2)).toEqual(["planned", "restarted"]);
    await second.close();
  });

  it("[SRV-13] continues from the newest event's time when the machine's clock is behind it", async () => {
    const store = new MemoryEventStore();
    const first = await testServer({ store });
    const session = await plan(first);
    await first.hand.leap(3_600_000);
    await say(first, session, HOLD);
    await first.close();
    const second = await testServer({ store, hand: new HandClock(await store.newestAt()) });
    expect(second.hand.wall()).toBe(START);
    expect(second.hand.clock.now()).toBe(START + 3_600_000);
    expect((await stateOf(second, session)).at).toBe(START + 3_600_000);
    await second.close();
  });
});

describe("the machine's clock", () => {
  it("[SRV-13] set by more than a second is recorded in every session that is not over", async () => {
    const test = await testServer();
    const session = await plan(test);
    test.hand.setWall(90_000);
    await test.hand.pass(1_000);
    expect(await facts(test, session)).toEqual(["planned", "clockStepped"]);
    expect((await stateOf(test, session)).at).toBe(START + 91_000);
    await test.hand.pass(10_000);
    expect(await facts(test, session)).toEqual(["planned", "clockStepped"]);
    await test.close();
  });
});

describe("deadlines", () => {
  const asked = async (test: TestServer) => {
    const session = await plan(test);
    await say(test, session, { type: "claimPost", post: "cockpit" });
    await say(test, session, { type: "claimPost", post: "fireGuard" }, BO);
    await say(test, session, HOLD, BO);
    return session;
  };

  it("[SRV-18] are recorded at the exact moment", async () => {
    const test = await testServer();
    const session = await asked(test);
    const due = nextDeadline(await stateOf(test, session)) ?? 0;
    const before = await facts(test, session);
    expect(due).toBeGreaterThan(test.hand.clock.now());
    await test.hand.pass(due - test.hand.clock.now() - 1);
    expect(await facts(test, session)).toEqual(before);
    await test.hand.pass(1);
    expect((await facts(test, session)).slice(before.length)).toContain("late");
    expect((await stateOf(test, session)).at).toBe(due);
    await test.close();
  });

  it("[SRV-18] that passed while the server was down are recorded at its start", async () => {
    const store = new MemoryEventStore();
    const first = await testServer({ store });
    const session = await asked(first);
    const due = nextDeadline(await stateOf(first, session)) ?? 0;
    await first.close();
    const hand = new HandClock();
    await hand.leap(due - START + 1);
    const second = await testServer({ store, hand });
    expect(await facts(second, session)).toContain("late");
    await second.close();
  });

  it("[SRV-18] that could not be recorded are tried again a second later", async () => {
    const store = new GatedStore();
    const test = await testServer({ store });
    const session = await asked(test);
    const due = nextDeadline(await stateOf(test, session)) ?? 0;
    store.broken = true;
    await test.hand.pass(due - test.hand.clock.now() + 2_500);
    store.broken = false;
    expect(await facts(test, session)).not.toContain("late");
    await test.hand.pass(1_000);
    expect(await facts(test, session)).toContain("late");
    await test.close();
  });

  it("[SRV-18] leave no timer behind when a session is over", async () => {
    const test = await testServer();
    const idle = test.hand.waiting;
    const session = await asked(test);
    await test.hand.pass(LIMITS.rampMs);
    await settle();
    await test.hand.pass(LIMITS.rampMs);
    expect(test.hand.waiting).toBe(idle + 1);
    const [hold] = (await stateOf(test, session)).holds;
    await say(test, session, { type: "send", kind: "release", ref: hold?.id, channel: "panel" }, BO);
    await say(test, session, { type: "abandon", reason: "weather" });
    // The ramp is told of the end, and then of what the aircraft's record took over.
    await test.hand.pass(LIMITS.rampMs);
    await settle();
    await test.hand.pass(LIMITS.rampMs);
    expect(test.hand.waiting).toBe(idle);
    await test.close();
  });
});

describe("a record that is not what was written", () => {
  it("[STO-10] makes its session unusable; the others continue", async () => {
    class Tampered extends MemoryEventStore {
      target = "";
      override async read(session: string, since: number, limit: number): Promise<StoredEvent[]> {
        const events = await super.read(session, since, limit);
        if (session !== this.target) return events;
        return events.map((e) =>
          e.seq > 1 ? { ...e, body: e.body.replace('"clientAt":1', '"clientAt":2') } : e,
        );
      }
    }
    const store = new Tampered();
    const first = await testServer({ store });
    const [good, bad] = [await plan(first), await plan(first)];
    for (const s of [good, bad]) await say(first, s, HOLD);
    await first.close();
    store.target = bad;
    const second = await testServer({ store });
    await expect(second.services.sessions.get(bad)).rejects.toThrow(StoreFailure);
    await expect(say(second, bad, HOLD)).rejects.toThrow(/event \d: its chain is broken/);
    expect(await say(second, good, HOLD)).toMatchObject({ status: "accepted" });
    await second.close();
  });

  it("[STO-10] whose tail was cut off is found by its session's row", async () => {
    class Cut extends MemoryEventStore {
      cut = 0;
      override async read(session: string, since: number, limit: number): Promise<StoredEvent[]> {
        return (await super.read(session, since, limit)).filter((e) => this.cut === 0 || e.seq <= this.cut);
      }
    }
    const store = new Cut();
    const first = await testServer({ store });
    const session = await plan(first);
    await say(first, session, HOLD);
    await first.close();
    store.cut = 1;
    const second = await testServer({ store });
    await expect(second.services.sessions.get(session)).rejects.toThrow(/holds 1 events, its row says/);
    await second.close();
  });
});

describe("two servers on one record", () => {
  it("[STO-1] decide again on what the other recorded, and keep one chain", async () => {
    const store = new MemoryEventStore();
    const one = await testServer({ store });
    const session = await plan(one);
    const two = await testServer({ store });
    for (let i = 0; i < 5; i += 1) {
      expect(await say(one, session, HOLD)).toMatchObject({ status: "accepted" });
      expect(await say(two, session, HOLD)).toMatchObject({ status: "accepted" });
    }
    const claim: Action = { type: "claimPost", post: "fireGuard" };
    expect(await say(one, session, claim, BO)).toMatchObject({ status: "accepted" });
    expect(await say(two, session, claim, FAY)).toMatchObject({ refusal: { reason: "postHeld" } });
    const three = await testServer({ store });
    expect((await stateOf(three, session)).holds).toHaveLength(10);
    for (const test of [one, two, three]) await test.close();
  });
});

describe("two sessions of one aircraft", () => {
  it("[STG-17] leave their briefs one at a time, whether both commands come at once or in turn", async () => {
    const test = await testServer();
    // A person holds a post in one session at a time: each session has a crew of its own.
    const crewOf = (n: number) =>
      POSTS.map((post): [Person, Post] => [
        { ...FAY, id: `${post}-${n}`, name: post, device: `${post}-${n}-tablet` },
        post,
      ]);
    const crews = [crewOf(1), crewOf(2)] as const;
    const briefed = async (crew: readonly [Person, Post][]) => {
      const session = await plan(test);
      for (const [who, post] of crew) await say(test, session, { type: "claimPost", post }, who);
      await say(test, session, { type: "advance", to: "brief" }, crew[0]?.[0]);
      for (const [who] of crew) await say(test, session, { type: "confirmBrief" }, who);
      return session;
    };
    const [one, two] = [await briefed(crews[0]), await briefed(crews[1])];
    const secure: Action = { type: "advance", to: "secure" };
    const answers = await Promise.all([
      say(test, one, secure, crews[0][0]?.[0]),
      say(test, two, secure, crews[1][0]?.[0]),
    ]);
    const code = (await test.services.sessions.get(one)).code;
    expect(answers).toMatchObject([
      { status: "accepted" },
      { status: "refused", refusal: { reason: "aircraftBusy", found: code } },
    ]);
    await say(test, one, { type: "abandon", reason: "weather" }, crews[0][0]?.[0]);
    expect(await say(test, two, secure, crews[1][0]?.[0])).toMatchObject({ status: "accepted" });
    await test.close();
  });
});

describe("sessions in memory", () => {
  it("[SRV-19] leave memory when they are over and many others were read since, and are read again on request", async () => {
    const test = await testServer();
    const sessions: string[] = [];
    for (let i = 0; i < 45; i += 1) {
      const session = await plan(test);
      await say(test, session, { type: "claimPost", post: "supervisor" });
      await say(test, session, { type: "abandon", reason: "weather" });
      sessions.push(session);
    }
    await settle();
    const [first = "", last = ""] = [sessions[0], sessions.at(-1)];
    // Planning reads the aircraft's last session, which may be any of those planned at the same instant. So read all
    // the others first.
    for (const other of sessions.slice(1)) await stateOf(test, other);
    let reads = 0;
    const read = test.services.store.read.bind(test.services.store);
    test.services.store.read = (...args) => {
      reads += 1;
      return read(...args);
    };
    await stateOf(test, last);
    expect(reads).toBe(0);
    expect((await stateOf(test, first)).stage).toBe("abandoned");
    expect(reads).toBe(1);
    await test.close();
  });
});

describe("the answer to a command", () => {
  it("[LIV-16] that is no longer in memory is read from the store, and is the same", async () => {
    const test = await testServer();
    const session = await plan(test);
    const { sessions } = test.services;
    const command = (id: string, action: Action): Command => ({ v: 1, id, session, clientAt: 1, action });
    const [hold, refused] = [command(randomUUID(), HOLD), command(randomUUID(), CLEAR)];
    const first = [await sessions.command(FAY, hold), await sessions.command(FAY, refused)];
    for (let n = 0; n < ANSWERED_KEPT; n += 50)
      await Promise.all(Array.from({ length: 50 }, () => say(test, session, CLEAR)));
    const live = await sessions.get(session);
    const inMemory = await live.run((draft) =>
      [hold.id, refused.id].filter((id) => draft.answeredBefore(id)),
    );
    expect(inMemory).toEqual([]);
    expect([await sessions.command(FAY, hold), await sessions.command(FAY, refused)]).toEqual(
      first.map((answer) => ({ ...answer, status: "duplicate" })),
    );
    expect(await sessions.command(FAY, command(hold.id, CLEAR))).toMatchObject({
      refusal: { reason: "idReused" },
    });
    await test.close();
  });
});
