import { describe, expect, it } from "vitest";
import { LoopShare } from "../../server/rehearsals/loop-share.ts";
import { SCRIPTS } from "../../server/rehearsals/scripts.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { beginCourse, type Course, stepCourse } from "../../shared/rehearsal/course.ts";
import { playStep } from "../../shared/rehearsal/playing.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Person } from "../../shared/session/step.ts";
import { coldAircraft, HANDS_OFF, NOTHING_WRONG } from "../../shared/simulation/state.ts";
import { stepAircraft } from "../../shared/simulation/step.ts";
import { HandClock, settle } from "../http/hand-clock.ts";
import { crewDirectory, testServer } from "../http/test-server.ts";
import { GatedStore } from "../live/gated-store.ts";
import { script, Theatre, TYPES } from "./theatre.ts";
import { Both, CREW } from "./world.ts";

/** Duration of one turn in these tests, and so the unit of work that is counted. Milliseconds. */
const TURN_MS = 5;

/** A server whose loop works for as long as its turns say, and for no other reason. */
class Loop {
  readonly hand = new HandClock();
  readonly turns: string[] = [];
  startsWait = false;
  #worked = 0;
  readonly share = new LoopShare({
    timers: this.hand,
    loop: { passed: () => this.hand.steady() + this.#worked, worked: () => this.#worked },
    startsWait: () => this.startsWait,
  });

  /** A rehearsal that has a step to play at all times. */
  plays(name: string, takes = TURN_MS): void {
    this.share.ask(async () => {
      this.turns.push(name);
      this.#worked += takes;
      this.plays(name, takes);
    });
  }
}

describe("the rehearsals' part of a server's work", () => {
  it("[RHS-60] is a tenth of it at most, however many want a turn, and each has as many as the others", async () => {
    const names = Array.from({ length: 50 }, (_, i) => `r${i}`);
    const loop = new Loop();
    for (const name of names) loop.plays(name);
    await settle();
    await loop.hand.pass(60_000);
    // At first 25 ms are saved up: five turns. A tenth of the whole is a ninth of the others' part.
    const most = 5 + (60_000 / 9 + TURN_MS) / TURN_MS;
    expect(loop.turns.length).toBeLessThanOrEqual(most);
    expect(loop.turns.length).toBeGreaterThan(0.9 * most);
    const counts = names.map((name) => loop.turns.filter((turn) => turn === name).length);
    // The first one had its turn before the others asked.
    expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(2);
    expect(loop.turns.slice(1, 51)).toEqual(names);
    loop.share.close();
  });

  it("[RHS-60] pays a long turn back before the next one, and a pause of the machine only in part", async () => {
    const loop = new Loop();
    loop.plays("long", 60);
    await settle();
    // 25 ms were saved up, and 60 are used: a tenth of 350 ms pays for the rest, 60 of which it worked.
    await loop.hand.pass(280);
    expect(loop.turns).toHaveLength(1);
    await loop.hand.pass(20);
    expect(loop.turns).toHaveLength(2);
    loop.share.close();
    const paused = new Loop();
    paused.plays("paused", 60_000);
    await settle();
    await paused.hand.pass(1_100);
    expect(paused.turns.length).toBeGreaterThan(1);
    paused.share.close();
  });

  it("[RHS-61] begins no turn while a start waits", async () => {
    const loop = new Loop();
    loop.startsWait = true;
    loop.plays("one");
    await loop.hand.pass(1_000);
    expect(loop.turns).toEqual([]);
    loop.startsWait = false;
    await loop.hand.pass(10);
    expect(loop.turns.length).toBeGreaterThan(0);
    loop.share.close();
  });
});

describe("rehearsals beside a start", () => {
  it("[RHS-61] [RHS-62] stand while its command waits for the disk, are slowed then, and record it", async () => {
    const store = new GatedStore();
    const both = await new Both(await testServer({ store })).begin();
    const { hand, services } = both.test;
    const world = async () => (await both.ask("GET", `/rehearsals/${both.rehearsal}/world`)).json();
    await hand.pass(3_000);
    const { steps } = services.rehearsals.running(both.rehearsal).view as unknown as Course;
    expect(await world()).toMatchObject({ slowed: false });
    store.shut();
    const answer = both.command(CREW.cockpit, both.start, { type: "claimPost", post: "cockpit" });
    await hand.pass(5_000);
    const played = services.rehearsals.running(both.rehearsal).view as unknown as Course;
    // A step may have begun before the command came.
    expect(played.steps - steps).toBeLessThanOrEqual(1);
    store.open();
    expect((await answer).status).toBe("accepted");
    await hand.pass(1_000);
    expect(await world()).toMatchObject({ slowed: true, speed: 1, frozen: false });
    await hand.pass(12_000);
    expect(await world()).toMatchObject({ slowed: false });
    await both.test.close();
  });

  it("[RHS-64] fifty at most, and three of one person, also when all begin at once", async () => {
    const server = await testServer({ directory: await crewDirectory() });
    const { rehearsals } = server.services;
    const begin = (id: string) => {
      const by: Person = { id, name: id, device: `${id}-tablet`, mayHold: POSTS };
      return rehearsals.begin(by, { aircraft: "CH-TST", script: "firstDay", seed: 1, post: null }).then(
        () => "begun",
        (error: Error) => error.message,
      );
    };
    const own = await Promise.all(["ann", "ann", "ann", "ann"].map(begin));
    expect(own.filter((said) => said === "begun")).toHaveLength(3);
    expect(own.find((said) => said !== "begun")).toMatch(/end one first/);
    const all = await Promise.all(Array.from({ length: 50 }, (_, i) => begin(`p${i}`)));
    expect(all.filter((said) => said === "begun")).toHaveLength(47);
    expect(new Set(all.filter((said) => said !== "begun"))).toEqual(
      new Set(["50 rehearsals run already: watch one, or wait until one ends"]),
    );
    await server.close();
  });
});

describe("what a rehearsal does", () => {
  const [type] = TYPES;
  if (!type) throw new Error("the demo has types");

  it("[RHS-63] partners look around when something happened, and else every three seconds", () => {
    const theatre = new Theatre(type, SCRIPTS[0] ?? script({}), 3);
    let looks = 0;
    let before = theatre.playing.looked;
    const events = theatre.events.length;
    const [minutes, stepMs] = [3, 250];
    for (let ms = 0; ms < minutes * 60_000; ms += stepMs) {
      theatre.play(stepMs / 60_000, undefined, stepMs);
      if (theatre.playing.looked !== before) looks += 1;
      before = theatre.playing.looked;
    }
    const happened = theatre.events.length - events;
    expect(happened).toBeGreaterThan(20);
    // Each event may come with an engine that does something else.
    expect(looks).toBeLessThanOrEqual(2 * happened + (minutes * 60) / 3);
    expect(looks).toBeLessThan((minutes * 60_000) / stepMs / 3);
  });

  it("[RHS-67] no partner acts again before what one did is recorded, or ten seconds have passed", () => {
    const theatre = new Theatre(type, script({}), 3);
    let { playing, now } = theatre;
    const { state } = theatre;
    const step = (of: SessionState) => {
      now += 250;
      const around = { now, seconds: 0.25, pace: 1, partners: POSTS, hands: null };
      const played = playStep(playing, of, around);
      playing = played.playing;
      return played.act;
    };
    const stepsToAct = (of: SessionState) => {
      for (let n = 1; n <= 100; n += 1) if (step(of)) return n;
      throw new Error("no partner acts");
    };
    stepsToAct(state);
    expect(stepsToAct(state)).toBeGreaterThanOrEqual(10 / 0.25);
    const heard = { ...state, seq: state.seq + 1 };
    expect(stepsToAct(heard)).toBeLessThan(10 / 0.25);
  });

  it("[RHS-63] a frozen world, and an aircraft that stands still, stay the same objects", () => {
    const theatre = new Theatre(type, script({}), 3);
    const first = theatre.events[0];
    if (!first) throw new Error("it was planned");
    const course = { ...beginCourse(script({}), first), frozen: true };
    const next = stepCourse(course);
    expect(next.course.playing).toBe(course.playing);
    expect([next.facts, next.act]).toEqual([[], null]);
    const { plant } = course.playing.run;
    const hands = {
      engines: Object.fromEntries(type.engines.map(({ n }) => [n, HANDS_OFF])),
      vacuumFrom: null,
      generators: false,
    };
    const supply = { cart: false, batteries: true };
    const cold = coldAircraft(plant);
    const later = stepAircraft(plant, cold, hands, supply, NOTHING_WRONG, 1);
    expect(later.engines.every((engine, i) => engine === cold.engines[i])).toBe(true);
    // The same to the last bit as in ten steps, each computed.
    let each = cold;
    for (let i = 0; i < 10; i += 1) each = stepAircraft(plant, each, hands, supply, NOTHING_WRONG, 0.1);
    expect(canonical(later)).toBe(canonical(each));
  });
});
