import { describe, expect, it } from "vitest";
import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { findUnmet } from "../../shared/conditions/all.ts";
import { isTurning } from "../../shared/engine/life.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { consequences } from "../../shared/session/consequences.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { isOver, type SessionState, stopOpen } from "../../shared/session/state.ts";
import { act } from "../../shared/session/step.ts";
import { isStop } from "../../shared/signals/isStop.ts";
import { say } from "../../shared/words/en.ts";
import { CREW, type Person, type Story } from "./given.ts";
import { rightFigure } from "./walk.ts";
import { walks } from "./walks.ts";

const clears = (state: SessionState) => state.engines.filter((e) => e.life.is === "clear");

// Long walks need time on a busy machine.
const PATIENT = { timeout: 120_000 };

describe("whatever four posts, an observer, time, restarts and clocks do", PATIENT, () => {
  it("[CLR-3, CLR-6, CLR-7, CLR-13, HLD-2] a clearance stands alone, unexpired, in its epoch, with every condition met and no stop", () => {
    let stood = 0;
    walks((_before, { state, now }) => {
      const cleared = clears(state);
      expect(cleared.length).toBeLessThanOrEqual(1);
      for (const engine of cleared) {
        if (engine.life.is !== "clear") continue;
        stood += 1;
        const { clearance } = engine.life;
        expect(stopOpen(state)).toBe(false);
        expect(clearance.epoch).toBe(state.epoch);
        expect(clearance.expiresAt).toBeGreaterThan(Math.max(now, state.at));
        expect(findUnmet(state, engine.n, Math.max(now, state.at))).toEqual([]);
      }
    });
    expect(stood).toBeGreaterThan(15);
  });

  it("[CLR-1, CLR-5, CLR-14, RBK-1] only the supervisor clears an engine, and it cranks only with a read-back clearance, in a fire or as seen turning", () => {
    let cranked = 0;
    walks((before, story, events) => {
      for (const engine of story.state.engines) {
        const was = before.engines[engine.n - 1]?.life;
        const [first] = events.filter((e) => e.actor.kind === "person");
        const fact = first?.fact;
        if (engine.life.is === "clear" && was?.is !== "clear") {
          expect(fact).toMatchObject({ type: "sent", kind: "clearToStart", engine: engine.n });
          expect(first?.actor).toMatchObject({ post: "supervisor" });
        }
        if (engine.life.is === "cranking" && was?.is !== "cranking" && was?.is !== "fire") {
          cranked += 1;
          if (fact?.type === "sent" && fact.kind === "turning") continue;
          expect(was?.is === "clear" && was.clearance.readBackAt !== null).toBe(true);
        }
      }
    });
    expect(cranked).toBeGreaterThan(1);
  });

  it("[CLR-11, PST-2, PST-3, EVT-1, EVT-7] epochs, fences, numbers and time only rise; one holder a post, one post a person", () => {
    walks((before, { state }, events) => {
      expect(state.epoch).toBeGreaterThanOrEqual(before.epoch);
      expect(events.map((e) => e.seq)).toEqual(events.map((_, i) => before.seq + 1 + i));
      expect(state.seq).toBe(before.seq + events.length);
      expect(state.at).toBeGreaterThanOrEqual(before.at);
      state.engines.forEach((e, i) => {
        expect(e.fence).toBeGreaterThanOrEqual(before.engines[i]?.fence ?? 0);
      });
      const holders = POSTS.flatMap((p) => state.posts[p]?.id ?? []);
      expect(new Set(holders).size).toBe(holders.length);
      const changed = POSTS.some((p) => state.posts[p]?.device !== before.posts[p]?.device);
      if (changed) expect(state.epoch).toBeGreaterThan(before.epoch);
    });
  });

  it("[HLD-1, CUT-1, FIR-1, FIR-2, TRN-1] stops are taken while the session lives, and a fire cuts nothing", () => {
    let stops = 0;
    walks((before, { state }, events) => {
      for (const { fact } of events) {
        if (fact.type === "refused") expect(isStop(fact.action)).toBe(false);
        if (fact.type !== "sent" || fact.kind !== "fire") continue;
        stops += 1;
        expect(state.cuts).toEqual(before.cuts);
        const turning = (x: SessionState) => x.engines.filter((e) => isTurning(e.life)).map((e) => e.n);
        expect(turning(state)).toEqual(turning(before));
      }
    });
    expect(stops).toBeGreaterThan(1);
  });

  it("[SIG-8, SIG-9, SIG-10] a closed signal stays closed, and every engine named exists", () => {
    const closed = new Map<object, Set<number>>();
    walks((_before, story, events) => {
      const seen = closed.get(story.log) ?? new Set<number>();
      closed.set(story.log, seen);
      for (const signal of story.state.ended) seen.add(signal.id);
      for (const signal of story.state.signals) expect(seen.has(signal.id)).toBe(false);
      for (const { fact } of events) {
        if (fact.type === "sent" && fact.engine !== undefined) expect(fact.engine).toBeLessThanOrEqual(4);
      }
      for (const signal of story.state.signals) {
        if (signal.dueAt !== null) expect(signal.dueAt).toBeGreaterThan(Math.min(story.now, story.state.at));
      }
    });
  });

  it("[PWR-1, PWR-3, CHK-2] power goes on and off and chocks come out only with a leave of the same epoch", () => {
    walks((before, _story, events) => {
      for (const { fact } of events) {
        if (fact.type !== "sent") continue;
        const leave = {
          powerConnected: "connectPower",
          powerDisconnected: "disconnectPower",
          chocksOut: "removeChocks",
        } as const;
        if (!(fact.kind in leave)) continue;
        if (fact.kind === "powerConnected" && before.groundPower.is === "on") continue;
        // A service found done without leave names no leave.
        if (fact.ref === undefined) {
          const { steadyMin, steadyMax } = before.type.groundPower;
          const volts = fact.volts?.value ?? 0;
          const inBand = volts >= steadyMin.value && volts <= steadyMax.value;
          expect(fact.kind === "powerConnected" && inBand).toBe(false);
          continue;
        }
        expect(before.authorities[leave[fact.kind as keyof typeof leave]]?.epoch).toBe(before.epoch);
      }
    });
  });

  it("[TIM-3] a restart ends every clearance and leave, and keeps holds, cuts and fires", () => {
    walks(
      () => {},
      (story) => {
        const { holds, cuts, fires } = story.state;
        if (isOver(story.state)) return;
        story.restart();
        expect(clears(story.state)).toEqual([]);
        expect(story.state.allClearAt).toBeNull();
        for (const authority of Object.values(story.state.authorities)) {
          if (authority) expect(authority.epoch).toBeLessThan(story.state.epoch);
        }
        expect([story.state.holds, story.state.cuts, story.state.fires]).toEqual([holds, cuts, fires]);
      },
    );
  });

  it("[EVT-2, EVT-6, REF-2] every log replays to the live state, byte for byte", () => {
    walks(
      () => {},
      (story) => expect(canonical(story.replayed())).toBe(canonical(story.state)),
    );
  });

  it("[TIM-1, TIM-2] nothing follows before the deadline, and something does at it", () => {
    let deadlines = 0;
    walks((_before, { state, now }) => {
      if (isOver(state) || now < state.at) return;
      expect(consequences(state, now)).toEqual([]);
      const due = nextDeadline(state);
      const quietUntil = due === null ? now + 86_400_000 : due - 1;
      expect(consequences(state, quietUntil)).toEqual([]);
      if (due === null) return;
      deadlines += 1;
      expect(due).toBeGreaterThan(now);
      expect(consequences(state, due)).not.toEqual([]);
    });
    expect(deadlines).toBeGreaterThan(100);
  });
});

describe("asks in every state reached", PATIENT, () => {
  it("[ASK-1, ASK-2, ASK-3, ASK-6] have words, and every choice offered is accepted when filled in", () => {
    let offered = 0;
    let turn = 0;
    walks((_before, { state, now }) => {
      turn += 1;
      if (turn % 3 !== 0 || isOver(state) || now < state.at) return;
      for (const post of POSTS) {
        const holder = state.posts[post];
        if (!holder) continue;
        const who: Person = { ...CREW[post], id: holder.id, name: holder.name, device: holder.device };
        const asks = askedOf(state, post, now);
        expect(asks.map((a) => a.weight)).toEqual(asks.map((a) => a.weight).sort((a, b) => a - b));
        for (const asked of asks) {
          expect(say.ask(asked)).not.toBe(asked.say);
          for (const chosen of asked.choices) {
            expect(say.choice(chosen.word)).not.toBe(chosen.word);
            const unit = chosen.need?.is === "figure" ? chosen.need.unit : "V";
            const action = fill(chosen, {
              engine: asked.engine ?? 1,
              figure: rightFigure(unit, asked.say),
              reason: "safe now",
              blades: { blades: 9, resistance: false },
              weather: { windKt: 5 },
            });
            offered += 1;
            const mark = { id: "x", digest: "x", clientAt: 0 };
            const { refusal } = act(state, actionSchema.parse(action), who, mark, now);
            // The second report of a fire out may be asked of a person who shares the first one's device.
            const sharing = refusal?.reason === "secondPersonNeeded";
            if (refusal && !sharing) expect({ asked: asked.key, word: chosen.word, refusal }).toBeNull();
          }
        }
      }
    });
    expect(offered).toBeGreaterThan(1_000);
  });

  it("[ASK-5] from every state every stop can be ended and the session brought to an end", () => {
    walks(
      () => {},
      (story) => {
        if (isOver(story.state)) return;
        story.waitMs(Math.max(0, story.state.at - story.now));
        bringHome(story);
        expect(stopOpen(story.state)).toBe(false);
        expect(story.say("cockpit", { type: "abandon", reason: "enough" }).refusal).toBeUndefined();
      },
    );
  });
});

/** A full crew takes over, stops every engine that turns, and ends every stop as its rule requires. */
function bringHome(story: Story) {
  for (
    let holder = story.state.posts.supervisor;
    holder && holder.id !== "di";
    holder = story.state.posts.supervisor
  ) {
    story.does(CREW.supervisor, { type: "vacatePost", post: "supervisor", reason: "relief" });
  }
  for (const post of ["supervisor", "cockpit", "fireGuard", "groundPower"] as const) {
    const holder = story.state.posts[post];
    if (holder && holder.id !== CREW[post].id)
      story.say("supervisor", { type: "vacatePost", post, reason: "relief" });
    story.say(post, { type: "claimPost", post });
  }
  for (const engine of story.state.engines) {
    if (isTurning(engine.life)) story.send("cockpit", "shutDown", { engine: engine.n });
  }
  for (const cut of story.state.cuts) {
    story.answer("cockpit", cut.id, "done");
    story.send("supervisor", "resetCut", { ref: cut.id });
  }
  for (const fire of story.state.fires)
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: fire.id });
  for (const hold of story.state.holds) {
    for (const post of POSTS) story.send(post, "release", { ref: hold.id, note: "safe, owner gone" });
    story.does(
      { ...CREW.cockpit, id: hold.person ?? "", name: "", device: "home" },
      { type: "send", kind: "release", ref: hold.id },
    );
  }
}
