import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { eventsOf, rebuilt } from "../../server/rehearsals/records.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { debriefOf } from "../../shared/rehearsal/debrief.ts";
import { momentsIn } from "../../shared/rehearsal/moments.ts";
import { momentEnd, retell } from "../../shared/rehearsal/retell.ts";
import { trainedIn } from "../../shared/rehearsal/training.ts";
import { evolve } from "../../shared/session/evolve.ts";
import { HANDS_OFF } from "../../shared/simulation/state.ts";
import { testServer } from "../http/test-server.ts";
import { storeStory } from "../store/chained.ts";
import { played } from "./finished.ts";
import { Both, CREW } from "./world.ts";

let both: Both;
beforeEach(async () => {
  both = await new Both(await testServer()).begin();
});
afterEach(() => both.test.close());

const pass = (seconds: number) => both.test.hand.pass(seconds * 1_000);
const events = (id: string): Promise<SessionEvent[]> => eventsOf(both.test.services, id);
const view = (id: string) => both.test.services.rehearsals.running(id).view;
const desk = (id: string, body: object, who = "ada") => both.ask("POST", `/rehearsals/${id}/desk`, who, body);
const back = (id: string, seq: number, who = "ada") =>
  both.ask("POST", `/rehearsals/${id}/back`, who, { seq });
const work = async (controls: object | null) => {
  const url = `/api/rehearsals/${both.rehearsal}/hands`;
  const headers = { authorization: `Bearer ${await both.token("ada")}` };
  await both.test.app.inject({ method: "PUT", url, payload: { controls }, headers });
};
const STARTER = { ...HANDS_OFF, starter: true, ignition: true };

/** Ada sits in the cockpit, holds the starter of engine 1 for some seconds, and the desk throws a fault. */
async function rehearsed(): Promise<string> {
  const id = both.rehearsal;
  await both.command(CREW.cockpit, id, { type: "claimPost", post: "cockpit" });
  await pass(20);
  await work({ engines: { 1: STARTER }, vacuumFrom: null, generators: false });
  await pass(7.1);
  await desk(id, { do: "pace", frozen: false, speed: 3 });
  await pass(5);
  await work(null);
  await desk(id, { do: "throw", fault: "cartSags", engine: 1 });
  // To the end of a step: none is due that was not played.
  await pass(11.15);
  return id;
}

describe("the record of a rehearsal", () => {
  it("[RHS-46] gives the same world again, to the byte: aircraft, faults, and what partners are about to do", async () => {
    const id = await rehearsed();
    await desk(id, { do: "pace", frozen: true, speed: 1 });
    await pass(1);
    const { playing } = view(id);
    expect(playing.run.sim.engines[0]?.hottestK).toBeGreaterThan(0);
    expect(playing.run.struck).toMatchObject([{ fault: "cartSags", engine: null }]);
    const again = await rebuilt(await events(id));
    if (!again.ok) throw new Error(again.why);
    expect(canonical(again.course.playing)).toBe(canonical(playing));
    expect(canonical(again.course.state)).toBe(canonical(await both.state(id)));
  });

  it("[RHS-46] holds every control that was worked, once, and goes by it alone", async () => {
    const id = await rehearsed();
    await work(null);
    const told = await events(id);
    const hands = told.flatMap(({ fact }) =>
      fact.type === "rehearsed" && fact.said.is === "hands" ? [fact.said.controls] : [],
    );
    expect(hands).toEqual([{ engines: { 1: STARTER }, vacuumFrom: null, generators: false }, null]);
    const without = told.map(
      (e): SessionEvent =>
        e.fact.type === "rehearsed" && e.fact.said.is === "hands"
          ? { ...e, fact: { type: "rehearsed", said: { is: "hands", controls: null } } }
          : e,
    );
    expect(await rebuilt(without)).toEqual({ ok: false, why: "differs" });
  });

  it("[RHS-46] of a server that stood long says so, and gives the same world still", async () => {
    const id = both.rehearsal;
    await pass(5);
    await both.test.hand.leap(20_000);
    await pass(5);
    const stood = (await events(id)).filter(
      ({ fact }) => fact.type === "rehearsed" && fact.said.is === "stood",
    );
    expect(stood).toHaveLength(1);
    expect(view(id).playing.run.t).toBeLessThan(15);
    await desk(id, { do: "pace", frozen: true, speed: 1 });
    await pass(1);
    const again = await rebuilt(await events(id));
    const [now, then] = [view(id).playing, again.ok ? again.course.playing : null];
    expect(canonical(then)).toBe(canonical(now));
  });
});

describe("going back to a moment", () => {
  it("[RHS-47] ends the rehearsal, and begins one of its own with the protocol, the aircraft and the script of that moment", async () => {
    const id = await rehearsed();
    await desk(id, { do: "mark", words: "Here" });
    const then = { playing: view(id).playing, state: await both.state(id) };
    await pass(8);
    expect(view(id).playing.run.t).toBeGreaterThan(then.playing.run.t + 20);
    const mark = (await events(id)).find(({ fact }) => fact.type === "rehearsed" && fact.said.is === "mark");
    const reply = await back(id, mark?.seq ?? 0);
    expect(reply.statusCode).toBe(201);
    const { id: next, code } = reply.json();
    expect([next === id, code === both.code]).toEqual([false, false]);
    const old = await both.state(id);
    expect(old).toMatchObject({ stage: "abandoned", wentBackTo: next });
    const state = await both.state(next);
    const { session, seq } = state.rehearsal?.back ?? {};
    expect({ session, seq }).toEqual({ session: id, seq: mark?.seq });
    expect(state.engines).toEqual(
      then.state.engines.map((e) => ({ ...e, starter: expect.anything(), readings: expect.anything() })),
    );
    expect(state.posts.cockpit?.id).toBe("ada");
    expect(POSTS.map((post) => state.posts[post]?.id)).toEqual(POSTS.map((p) => then.state.posts[p]?.id));
    const { run } = view(next).playing;
    expect({ ...run, t: 0 }).toEqual({ ...then.playing.run, t: 0 });
    await pass(10);
    expect(view(next).playing.run.t).toBeGreaterThan(run.t + 20);
    expect((await both.state(both.start)).seq).toBe(1);
  });

  it("[RHS-47] says in its first event, and in both exports' checks, of which rehearsal what was retold", async () => {
    const id = await rehearsed();
    const from = await events(id);
    const seq = momentEnd(from, momentsIn(from, 1)[0]?.seq ?? 0);
    const { id: next } = (await back(id, seq)).json();
    const told = await events(next);
    const later = (told[seq - 1]?.at ?? 0) - (from[seq - 1]?.at ?? 0);
    for (let i = 1; i < seq; i += 1) {
      const { session, at, ...same } = told[i] as SessionEvent;
      const { session: _of, at: before, ...there } = from[i] as SessionEvent;
      expect(session).toBe(next);
      expect(at).toBe(before + later);
      if (there.fact.type !== "sent") expect(same).toEqual(there);
    }
    expect(told[seq]?.fact).toMatchObject({ said: { is: "goesOn", from: id, seq, by: { id: "ada" } } });
    const text = (await both.ask("GET", `/sessions/${next}/evidence?as=ndjson`)).body;
    expect(checkFile(text)).toMatchObject({ ok: true, says: expect.stringContaining(`retold from ${id}`) });
    const forged = told.map((e) => ({ ...e }));
    const plan = forged[0]?.fact;
    if (plan?.type !== "planned" || !plan.rehearsal?.back || !forged[0]) throw new Error("no plan");
    const { back: was } = plan.rehearsal;
    const real = { ...plan, rehearsal: { ...plan.rehearsal, back: { ...was, session: both.start } } };
    expect(() => evolve(null, { ...(forged[0] as SessionEvent), fact: real })).toThrow("from a start");
  });

  it("[RHS-47] is for who began it or a supervisor, to a moment that its record has, while it runs", async () => {
    const id = both.rehearsal;
    await pass(3);
    expect((await back(id, 1, "bo")).statusCode).toBe(403);
    expect((await back(id, 5_000)).statusCode).toBe(422);
    expect((await back(id, 0)).statusCode).toBe(400);
    expect((await back(both.start, 1)).statusCode).toBe(404);
    expect((await back(id, 1, "di")).statusCode).toBe(201);
    expect((await back(id, 1)).statusCode).toBe(404);
  });

  it("[RHS-47] leaves a post to nobody who is not there any more, and keeps it for a person half a minute", async () => {
    const id = both.rehearsal;
    const guard = { type: "claimPost", post: "fireGuard" } as const;
    await both.command(CREW.cockpit, id, { type: "claimPost", post: "cockpit" });
    await both.command(CREW.fireGuard, id, guard);
    await pass(3);
    const { seq } = await both.state(id);
    await both.command(CREW.fireGuard, id, { type: "leavePost", post: "fireGuard" });
    const { id: next } = (await back(id, seq)).json();
    const { posts } = await both.state(next);
    expect([posts.cockpit?.id, posts.fireGuard]).toEqual(["ada", null]);
    await pass(31);
    expect((await both.state(next)).posts.fireGuard?.name).toBe("Auto 2");
  });

  it("[RHS-48] what is retold is nobody's deed in the debrief and no training, and one that was taken back is finished by nobody", () => {
    const { events: whole } = played();
    const caught = whole.findIndex(({ fact }) => fact.type === "sent" && fact.kind === "caught");
    const seq = momentEnd(whole, caught + 1);
    const as = { session: "rehearsal-next", code: "R-NEXTAA", now: (whole[seq - 1]?.at ?? 0) + 60_000 };
    const rest = whole.slice(seq).map((e) => ({ ...e, session: as.session, at: e.at + 60_000 }));
    const next = [...retell(whole, seq, as), ...rest];
    expect(next.reduce<ReturnType<typeof evolve> | null>(evolve, null)?.seq).toBe(whole.length);
    expect(debriefOf(next).every((line) => line.seq > seq)).toBe(true);
    const touches = (of: readonly SessionEvent[]) =>
      debriefOf(of).flatMap((line) => (line.is === "touches" ? [line.times] : []));
    expect(touches(next).reduce((a, b) => a + b, 0)).toBeLessThan(touches(whole).reduce((a, b) => a + b, 0));
    const [then, now] = [trainedIn(whole), trainedIn(next)];
    expect([then?.takenBack, now?.takenBack]).toEqual([false, true]);
    expect(then?.of.every(({ finishedAt }) => finishedAt !== null)).toBe(true);
    expect(now?.of.map(({ finishedAt }) => finishedAt)).toEqual(now?.of.map(() => null));
    for (const row of now?.of ?? []) {
      expect(row.at).toBe(next[seq - 1]?.at);
      expect(row.seconds).toBeLessThan(then?.of.find(({ post }) => post === row.post)?.seconds ?? 0);
    }
  });
});

describe("a server that starts again", () => {
  it("[RHS-49] takes up its rehearsals in the same world, and says that it stood", async () => {
    const id = await rehearsed();
    const { playing } = view(id);
    const { store, close } = both.test.services;
    close();
    const { hand } = both.test;
    await hand.leap(60_000);
    const again = await testServer({ store, hand });
    try {
      await hand.pass(0);
      await expect
        .poll(async () => (await both.test.services.store.read(id, 0, 1_000)).at(-1)?.type)
        .toBe("rehearsed");
      const course = again.services.rehearsals.running(id).view;
      // The last steps before the stop, after the last event, were seen by nobody.
      expect(course.playing.run.t).toBeLessThanOrEqual(playing.run.t);
      expect(course.playing.run.t).toBeGreaterThan(playing.run.t - 40);
      expect(course.playing.run.struck).toEqual(playing.run.struck);
      await hand.pass(10_000);
      expect(again.services.rehearsals.running(id).view.playing.run.t).toBeGreaterThan(
        course.playing.run.t + 5,
      );
      const told = await eventsOf(again.services, id);
      const whole = await rebuilt(told);
      expect(whole.ok).toBe(true);
      const said = told.flatMap(({ fact }) => (fact.type === "rehearsed" ? [fact.said.is] : []));
      expect(said.filter((is) => is === "stood")).toHaveLength(1);
    } finally {
      await again.close();
    }
  });

  it("[RHS-49] ends a rehearsal that cannot be rebuilt, and says so", async () => {
    const theatre = played();
    const [first, ...rest] = theatre.events.slice(0, 12);
    if (first?.fact.type !== "planned" || !first.fact.rehearsal) throw new Error("no plan");
    // As records were before they held their script.
    const { played: _script, ...rehearsal } = first.fact.rehearsal;
    const log: SessionEvent[] = [{ ...first, fact: { ...first.fact, rehearsal } }, ...rest];
    const state = log.reduce<ReturnType<typeof evolve> | null>(evolve, null);
    if (!state) throw new Error("no state");
    const { store, close } = both.test.services;
    await storeStory(store, { state, log }, "R-TESTAA");
    close();
    const again = await testServer({ store, hand: both.test.hand });
    try {
      await expect
        .poll(async () => (await eventsOf(again.services, state.id)).at(-1)?.fact)
        .toMatchObject({
          type: "stageReached",
          stage: "abandoned",
          reason: expect.stringContaining("taken up"),
        });
      expect((await both.state(both.start)).stage).not.toBe("abandoned");
    } finally {
      await again.close();
    }
  });
});
