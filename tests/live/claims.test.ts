import { afterEach, describe, expect, it } from "vitest";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import type { Trouble } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { HandClock, settle } from "../http/hand-clock.ts";
import { applying } from "../safety/types.ts";
import { bo, given, type Story } from "../spec/given.ts";
import { storeStory } from "../store/chained.ts";
import { type LiveServer, liveServer, panelOf, type TestPanel } from "./panel.ts";

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0).reverse()) await one.close();
});

/** A server on which the session of a story goes on, and panels of its people at it. */
class Ramp {
  readonly server: LiveServer;
  readonly session: string;

  private constructor(server: LiveServer, session: string) {
    this.server = server;
    this.session = session;
  }

  static async of(...stories: [Story, ...Story[]]): Promise<Ramp> {
    const store = new MemoryEventStore();
    for (const [n, story] of stories.entries()) await storeStory(store, story, `TEST-${n}`);
    const server = await liveServer({ store, hand: new HandClock(await store.newestAt()) });
    open.push(server);
    return new Ramp(server, stories[0].state.id);
  }

  async panel(person: string, device?: string): Promise<Panel> {
    const panel = await panelOf(this.server, person, device);
    open.push(panel);
    return new Panel(panel, this.session);
  }

  panels(...people: string[]): Promise<Panel[]> {
    return Promise.all(people.map((p) => this.panel(p)));
  }

  async state(session = this.session): Promise<SessionState> {
    await settle();
    return (await this.server.services.sessions.get(session)).state;
  }
}

/** The outcome of a command: `accepted`, or the reason why it was refused. */
const outcome = (result: CommandResult | Trouble): string => {
  if (result.status === "refused") return result.refusal.reason;
  return result.status === "error" ? result.error : result.status;
};

class Panel {
  readonly #panel: TestPanel;
  readonly #session: string;

  constructor(panel: TestPanel, session: string) {
    this.#panel = panel;
    this.#session = session;
  }

  /** Tries to clear engine 3. Returns the conditions for which it was refused, in alphabetical order. */
  async unmet(): Promise<string[]> {
    const clear: Action = { type: "send", kind: "clearToStart", engine: 3, channel: "panel" };
    const result = await this.#panel.command(this.#session, clear);
    if (result.status !== "refused") throw new Error(`it was ${result.status}`);
    return (result.refusal.unmet ?? []).map((u) => u.id).sort();
  }

  async say(action: Action, session = this.#session): Promise<string> {
    return outcome(await this.#panel.command(session, action));
  }

  send(kind: SignalKind, more: object = {}, session?: string): Promise<string> {
    return this.say({ type: "send", kind, channel: "panel", ...more } as Action, session);
  }

  answer(signal: number, answer: string): Promise<string> {
    return this.say({ type: "answer", signal, answer, channel: "panel" } as Action);
  }

  check(check: string, good: boolean): Promise<string> {
    return this.say({ type: "recordCheck", check, good });
  }
}

const signalOf = (state: SessionState, kind: SignalKind) =>
  state.signals.find((s) => s.kind === kind)?.id ?? 0;
const life = (state: SessionState, n: number) => state.engines[n - 1]?.life.is;
const ready = (story = given()) => story.upTo("starting").requested(3).guarded(3);

describe("trying to get round what the hazard record claims, over the wire", () => {
  it("[HLD-3, HLD-4] UCA-U3d: nobody but its owner releases a hold", async () => {
    const story = ready();
    story.send("fireGuard", "hold");
    const ramp = await Ramp.of(story);
    const [guard, cockpit, power, supervisor, observer, spare] = await ramp.panels(
      "bo",
      "ada",
      "cy",
      "di",
      "ed",
      "fay",
    );
    const ref = story.state.holds[0]?.id;
    for (const who of [cockpit, power, supervisor, observer, spare]) {
      expect(await who?.send("release", { ref })).not.toBe("accepted");
      expect(await who?.send("release", { ref, note: "nothing seen" })).not.toBe("accepted");
      expect(await who?.send("disregard", { ref })).not.toBe("accepted");
      expect(await who?.send("release", { ref, channel: "hand", seenFrom: "fireGuard" })).not.toBe(
        "accepted",
      );
    }
    // An answer is no release, and the end of another hold is not the end of this one.
    expect(await supervisor?.answer(signalOf(await ramp.state(), "hold"), "received")).toBe("accepted");
    await supervisor?.send("hold");
    const own = (await ramp.state()).holds.at(-1)?.id;
    expect(await supervisor?.send("release", { ref: own })).toBe("accepted");
    expect((await ramp.state()).holds.map((h) => h.id)).toEqual([ref]);
    expect(await supervisor?.send("clearToStart", { engine: 3 })).not.toBe("accepted");
    expect(await guard?.send("release", { ref })).toBe("accepted");
  });

  it("[CUT-4, CUT-5, CUT-6, TRN-5] UCA-U5f: a cut is over when it is done and stood down, and no start follows before", async () => {
    const story = given().upTo("starting").started(3);
    story.send("supervisor", "cut", { engine: 3 });
    const ramp = await Ramp.of(story);
    const [cockpit, guard, power, supervisor] = await ramp.panels("ada", "bo", "cy", "di");
    const ref = story.state.cuts[0]?.id ?? 0;
    for (const who of [supervisor, cockpit])
      expect(await who?.send("resetCut", { ref })).not.toBe("accepted");
    for (const who of [guard, power, supervisor]) expect(await who?.answer(ref, "done")).not.toBe("accepted");
    expect(await cockpit?.answer(ref, "unable")).toBe("accepted");
    expect((await ramp.state()).cuts).toMatchObject([{ doneAt: null }]);
    expect(await cockpit?.answer(ref, "done")).toBe("accepted");
    for (const n of [3, 4])
      expect(await cockpit?.send("readyToStart", { engine: n, note: "again" })).not.toBe("accepted");
    // Cranked all the same, it is an engine seen turning, and the cut cannot be stood down beside it.
    expect(await cockpit?.send("cranking", { engine: 3 })).toBe("accepted");
    expect((await ramp.state()).alerts.map((a) => a.kind)).toContain("turningUncleared");
    expect(await supervisor?.send("resetCut", { ref })).not.toBe("accepted");
    expect((await ramp.state()).cuts).toHaveLength(1);
  });

  it("[MCN-1, MCN-3, SIG-17] UCA-U1g: no check and no blade count is passed over", async () => {
    const checks = ["areaChecked", "fuellingClear", "extinguisherChecked"] as const;
    const story = given({ type: applying(...checks, "bladesCounted") }).upTo("secure");
    for (const n of [1, 2, 4]) {
      story.send("cockpit", "handlePropeller", { engine: n });
      story.say("groundPower", { type: "countBlades", engine: n, blades: 9, resistance: false });
      story.send("groundPower", "propellerFree", { engine: n });
    }
    story.send("cockpit", "handlePropeller", { engine: 3 });
    story.say("groundPower", { type: "countBlades", engine: 3, blades: 9, resistance: false });
    story.send("groundPower", "propellerFree", { engine: 3 });
    ready(story);
    story.say("groundPower", { type: "countBlades", engine: 3, blades: 1, resistance: true });
    const ramp = await Ramp.of(story);
    const [cockpit, guard, power, supervisor, observer] = await ramp.panels("ada", "bo", "cy", "di", "ed");
    expect(await supervisor?.unmet()).toEqual(["bladesCounted", ...checks].sort());
    for (const who of [cockpit, guard, power, observer])
      for (const check of ["area", "fuelling"]) expect(await who?.check(check, true)).not.toBe("accepted");
    for (const who of [cockpit, power, supervisor, observer])
      expect(await who?.check("extinguisher", true)).not.toBe("accepted");
    // A count without leave, and one said to be free again beside the resistance.
    const free: Action = { type: "countBlades", engine: 3, blades: 20, resistance: false };
    for (const who of [power, guard, cockpit]) expect(await who?.say(free)).not.toBe("accepted");
    await supervisor?.check("area", true);
    await supervisor?.check("fuelling", true);
    await guard?.check("extinguisher", true);
    expect(await supervisor?.unmet()).toEqual(["bladesCounted"]);
    // Somebody without a post who sees that one is not good any more is believed.
    expect(await observer?.check("fuelling", false)).toBe("accepted");
    expect(await supervisor?.unmet()).toEqual(["bladesCounted", "fuellingClear"]);
  });

  it("[HND-3, HND-7, TRN-5] UCA-U1k: with hands on a propeller nothing is cleared, and a crank is an engine seen turning", async () => {
    const story = given({ order: [3, 4] }).upTo("starting");
    story.send("groundPower", "handlePropeller", { engine: 4 });
    story.answer("cockpit", story.openSignal("handlePropeller"), "authorise");
    story.requested(3).guarded(3);
    const ramp = await Ramp.of(story);
    const [cockpit, power, supervisor, observer] = await ramp.panels("ada", "cy", "di", "ed");
    expect(await supervisor?.unmet()).toEqual(["handsOffPropellers"]);
    for (const who of [cockpit, supervisor, observer])
      expect(await who?.send("propellerFree", { engine: 4 })).not.toBe("accepted");
    // Not even a stop and its end, or a change of post, takes the hands off.
    await power?.send("hold");
    await power?.send("release", { ref: (await ramp.state()).holds[0]?.id });
    await supervisor?.say({ type: "vacatePost", post: "groundPower", reason: "gone" });
    await cockpit?.send("readyToStart", { engine: 3, note: "again" });
    expect((await ramp.state()).handling).toMatchObject({ engine: 4 });
    expect(await supervisor?.unmet()).toContain("handsOffPropellers");
    expect(await cockpit?.send("cranking", { engine: 4 })).toBe("accepted");
    const state = await ramp.state();
    expect(state.holds).toHaveLength(1);
    expect(state.alerts.map((a) => a.kind)).toContain("turningUncleared");
  });

  it("[RTN-32] UCA-U1g: once a propeller turned under hands, no count of its blades is taken before they are let near again", async () => {
    const story = given({ order: [3, 4] }).upTo("starting");
    story.send("cockpit", "handlePropeller", { engine: 3 });
    const ramp = await Ramp.of(story);
    const [cockpit, guard, power, observer] = await ramp.panels("ada", "bo", "cy", "ed");
    const count: Action = { type: "countBlades", engine: 3, blades: 9, resistance: false };
    expect(await observer?.send("turning", { engine: 3 })).toBe("accepted");
    for (const who of [power, guard]) expect(await who?.say(count)).toBe("wrongEngineState");
    expect(await cockpit?.send("shutDown", { engine: 3 })).toBe("accepted");
    for (const who of [power, guard]) expect(await who?.say(count)).toBe("turnedUnderHands");
    expect(await guard?.send("propellerStill", { engine: 3 })).toBe("accepted");
    for (const who of [power, guard]) expect(await who?.say(count)).toBe("turnedUnderHands");
    expect((await ramp.state()).engines[2]?.blades).toBeNull();
  });

  it("[MCN-4, MCN-5, MCN-6, SIG-17] UCA-U1l: a barring defect, too much wind or a person past their date stops the clearance", async () => {
    const story = given({ type: applying("noBarringDefect", "windWithinLimits", "postsCurrent") });
    story.does({ ...bo, currentUntil: story.now }, { type: "claimPost", post: "fireGuard" });
    story.upTo("starting");
    story.air(15, { windKt: 5, gustKt: 5 });
    ready(story);
    const ramp = await Ramp.of(story);
    const [cockpit, guard, power, supervisor, observer] = await ramp.panels("ada", "bo", "cy", "di", "ed");
    expect(await supervisor?.unmet()).toEqual(["postsCurrent"]);
    // Taking the post again, or confirming the brief again, renews nothing.
    expect(await guard?.say({ type: "claimPost", post: "fireGuard" })).toBe("alreadyDone");
    await guard?.say({ type: "confirmBrief" });
    expect(await supervisor?.unmet()).toEqual(["postsCurrent"]);
    const defect: Action = { type: "writeDefect", words: "Cowl loose", engine: 3, barsStart: true };
    expect(await observer?.say(defect)).toBe("accepted");
    const wind: Action = { type: "recordWeather", windKt: 45, gustKt: 60 };
    expect(await observer?.say(wind)).toBe("accepted");
    expect(await supervisor?.unmet()).toEqual(
      expect.arrayContaining(["noBarringDefect", "windWithinLimits", "postsCurrent"]),
    );
    const [written] = (await ramp.state()).defects;
    for (const who of [cockpit, guard, power, observer])
      expect(await who?.say({ type: "closeDefect", defect: written?.id ?? "", reason: "fine" })).not.toBe(
        "accepted",
      );
    for (const who of [guard, power, observer])
      expect(await who?.say({ type: "recordWeather", windKt: 5, gustKt: 5 })).not.toBe("accepted");
    expect(await supervisor?.unmet()).toEqual(
      expect.arrayContaining(["noBarringDefect", "windWithinLimits"]),
    );
  });

  it("[MCN-7, PWR-2, PWR-13] UCA-U7b: no leave to disconnect before the generators carry the load, and power gone without it is told", async () => {
    const story = given({ type: applying("generatorsCarry") })
      .upTo("starting")
      .started(3);
    const ramp = await Ramp.of(story);
    const [cockpit, guard, power, supervisor] = await ramp.panels("ada", "bo", "cy", "di");
    expect(await cockpit?.send("disconnectPower")).toBe("conditionsUnmet");
    expect(await power?.send("disconnectPower")).toBe("conditionsUnmet");
    expect(await cockpit?.check("generatorsCarry", true)).toBe("accepted");
    expect(await power?.send("disconnectPower")).toBe("accepted");
    expect(await cockpit?.check("generatorsCarry", false)).toBe("accepted");
    const asked = signalOf(await ramp.state(), "disconnectPower");
    expect(await cockpit?.answer(asked, "authorise")).toBe("conditionsUnmet");
    for (const who of [power, supervisor, guard])
      expect(await who?.answer(asked, "authorise")).not.toBe("accepted");
    for (const who of [power, guard]) expect(await who?.check("generatorsCarry", true)).not.toBe("accepted");
    // A leave that a witness says to have seen is none.
    await power?.send("disconnectPower", { channel: "hand", seenFrom: "cockpit" });
    expect((await ramp.state()).authorities.disconnectPower).toBeNull();
    expect(await power?.send("powerDisconnected")).toBe("accepted");
    const state = await ramp.state();
    expect(state.groundPower).toMatchObject({ is: "off", lost: true });
    expect(state.alerts.map((a) => a.kind)).toContain("powerLost");
  });

  it("[MCN-7, CHK-2, CHK-8] UCA-U8c: no leave to take chocks out beside a turning inboard engine; taken out all the same, it is told", async () => {
    const story = given({ type: applying("inboardStopped"), order: [3, 4] }).upTo("release");
    story.brakes();
    const ramp = await Ramp.of(story);
    const [cockpit, guard, power, supervisor, observer] = await ramp.panels("ada", "bo", "cy", "di", "ed");
    expect(await cockpit?.send("removeChocks")).toBe("conditionsUnmet");
    await power?.send("removeChocks");
    const asked = signalOf(await ramp.state(), "removeChocks");
    for (const who of [cockpit, power, supervisor, guard])
      expect(await who?.answer(asked, "authorise")).not.toBe("accepted");
    for (const who of [power, guard])
      await who?.send("removeChocks", { channel: "hand", seenFrom: "cockpit" });
    expect((await ramp.state()).authorities.removeChocks).toBeNull();
    expect(await observer?.send("brakesReleased")).toBe("accepted");
    expect(await power?.send("chocksOut")).toBe("accepted");
    const state = await ramp.state();
    expect(state.chocks).toMatchObject({ in: false });
    expect(state.alerts.map((a) => a.kind)).toContain("mayRoll");
  });

  it("[CON-14, CON-15, SIG-19, TRN-6, CLR-9] UCA-U11d: somebody in the arc ends the clearance, whoever says so, and only the guard clears the arc", async () => {
    const ramp = await Ramp.of(ready());
    const [cockpit, guard, supervisor, observer] = await ramp.panels("ada", "bo", "di", "ed");
    expect(await supervisor?.send("clearToStart", { engine: 3 })).toBe("accepted");
    expect(life(await ramp.state(), 3)).toBe("clear");
    expect(await observer?.send("peopleAtAircraft", { engine: 3 })).toBe("accepted");
    expect(life(await ramp.state(), 3)).not.toBe("clear");
    for (const who of [cockpit, supervisor, observer])
      expect(await who?.send("arcClear", { engine: 3 })).not.toBe("accepted");
    await supervisor?.send("arcClear", { engine: 3, channel: "hand", seenFrom: "fireGuard" });
    expect(await cockpit?.send("readyToStart", { engine: 3, note: "again" })).toBe("accepted");
    // The one who clears is never the only one who saw the arc.
    expect(await supervisor?.unmet()).toEqual(["arcClear"]);
    expect(await guard?.send("arcClear", { engine: 3 })).toBe("accepted");
    expect(await supervisor?.send("clearToStart", { engine: 3 })).toBe("accepted");
    const clearance = signalOf(await ramp.state(), "clearToStart");
    await cockpit?.say({
      type: "answer",
      signal: clearance,
      answer: "readBack",
      engine: 3,
      channel: "panel",
    });
    expect(await cockpit?.send("cranking", { engine: 3, ref: clearance })).toBe("accepted");
    expect(await observer?.send("arcNotClear", { engine: 3 })).toBe("accepted");
    expect((await ramp.state()).alerts.map((a) => a.kind)).toContain("arcUnsafe");
  });

  it("[PST-2, PST-3, PST-5, PST-11, SIG-17] UCA-U12b: a post has one holder on one device, and danger is heard from anybody", async () => {
    const story = ready();
    story.say("groundPower", { type: "leavePost", post: "groundPower" });
    const ramp = await Ramp.of(story);
    const [guard, spare] = await ramp.panels("bo", "fay");
    expect(await spare?.say({ type: "claimPost", post: "fireGuard" })).toBe("postHeld");
    expect(await spare?.say({ type: "acceptPost", post: "fireGuard" })).toBe("notOffered");
    expect(await spare?.send("arcClear", { engine: 3 })).toBe("wrongPost");
    // Two people reach for a vacant post at once: one has it.
    const cy = await ramp.panel("cy");
    const claim: Action = { type: "claimPost", post: "groundPower" };
    const both = await Promise.all([cy.say(claim), spare?.say(claim)]);
    expect(both.sort()).toEqual(["accepted", "postHeld"]);
    // The guard moves to another device: the first one only watches.
    const second = await ramp.panel("bo", "bo-second");
    expect(await second.send("guardInPlace", { engine: 3 })).toBe("wrongPost");
    expect(await second.say({ type: "claimPost", post: "fireGuard" })).toBe("accepted");
    expect(await guard?.send("arcClear", { engine: 3 })).toBe("wrongPost");
    expect(await guard?.send("arcNotClear", { engine: 3 })).toBe("accepted");
    expect((await ramp.state()).arcs[3]).toMatchObject({ clear: false });
  });

  it("[STG-17, PST-12, STN-2, STN-10] FME-24: two sessions of one aircraft share no guard, no start and every stop", async () => {
    const one = given().manned().upTo("starting");
    const two = given({ session: "other-session" });
    const ramp = await Ramp.of(one, two);
    const [guard, cockpit, spare, observer] = await ramp.panels("bo", "ada", "fay", "ed");
    for (const [who, post] of [
      [guard, "fireGuard"],
      [cockpit, "cockpit"],
    ] as const)
      expect(await who?.say({ type: "claimPost", post }, two.state.id)).toBe("postElsewhere");
    expect(await spare?.say({ type: "claimPost", post: "supervisor" }, two.state.id)).toBe("accepted");
    expect(await spare?.say({ type: "advance", to: "brief" }, two.state.id)).toBe("accepted");
    expect(await spare?.say({ type: "advance", to: "secure" }, two.state.id)).not.toBe("accepted");
    expect(await observer?.send("hold", {}, two.state.id)).toBe("accepted");
    expect(await cockpit?.send("readyToStart", { engine: 3 })).toBe("stopOpen");
    const [there] = (await ramp.state(two.state.id)).holds;
    expect(await observer?.send("release", { ref: there?.id }, two.state.id)).toBe("accepted");
    expect((await ramp.state()).holds).toEqual([]);
  });
});

describe("a supervisor of two aircraft, over the wire", () => {
  it("[PST-13] says at the clearance where they stand, and says nothing more once they supervise one", async () => {
    const here = ready();
    const there = given({ session: "there", aircraft: "CH-OTH" });
    const ramp = await Ramp.of(here, there);
    const [supervisor] = await ramp.panels("di");
    const post = "supervisor";
    expect(await supervisor?.say({ type: "claimPost", post }, there.state.id)).toBe("accepted");
    expect((await ramp.state()).supervisesAlso).toEqual(["CH-OTH"]);
    expect((await ramp.state(there.state.id)).supervisesAlso).toEqual(["CH-TST"]);
    const clear = (more: object) => supervisor?.send("clearToStart", { engine: 3, ...more });
    expect(await clear({})).toBe("notStandingHere");
    expect(await clear({ standsAt: "CH-OTH" })).toBe("notStandingHere");
    expect(await clear({ standsAt: "CH-TST" })).toBe("accepted");
    expect(await supervisor?.say({ type: "leavePost", post }, there.state.id)).toBe("accepted");
    expect((await ramp.state()).supervisesAlso).toBeUndefined();
  });

  it("[PST-13] two sessions of one aircraft are one place to stand", async () => {
    const ramp = await Ramp.of(ready(), given({ session: "again" }));
    const [supervisor] = await ramp.panels("di");
    expect(await supervisor?.say({ type: "claimPost", post: "supervisor" }, "again")).toBe("accepted");
    expect(await supervisor?.send("clearToStart", { engine: 3 })).toBe("accepted");
  });
});
