import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { playPost } from "../../shared/partners/play.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { HANDS_OFF } from "../../shared/simulation/state.ts";
import { testServer } from "../http/test-server.ts";
import type { Person } from "../spec/given.ts";
import { Both, CREW } from "./world.ts";

let both: Both;
beforeEach(async () => {
  both = await new Both(await testServer()).begin();
});
afterEach(() => both.test.close());

const begin = async (more: object, who = "fay") => {
  const body = { aircraft: "CH-TST", script: "firstDay", seed: 7, post: null, ...more };
  const reply = await both.ask("POST", "/rehearsals", who, body);
  if (reply.statusCode !== 201) throw new Error(reply.body);
  return reply.json() as { id: string; code: string };
};
const holders = async (id: string) => {
  const { posts } = await both.state(id);
  return POSTS.map((post) => posts[post]?.name ?? null);
};
const facts = async (id: string) =>
  (await both.test.services.store.read(id, 0, 1_000)).map(({ body }) => readSealed(body).event.fact);
const pass = (seconds: number) => both.test.hand.pass(seconds * 1_000);

describe("a rehearsal on the server", () => {
  it("[RHS-24] partners take all posts within two seconds when nobody asked for one, and all but that one else", async () => {
    const watched = await begin({});
    await pass(2);
    expect(await holders(watched.id)).toEqual(["Auto 1", "Auto 2", "Auto 3", "Auto 4"]);
    const guarded = await begin({ post: "fireGuard" });
    await pass(2);
    expect(await holders(guarded.id)).toEqual(["Auto 1", null, "Auto 3", "Auto 4"]);
    await both.command(CREW.fireGuard, guarded.id, { type: "claimPost", post: "fireGuard" });
    await pass(1);
    expect((await holders(guarded.id))[1]).toBe("Bo");
    await both.command(CREW.fireGuard, guarded.id, { type: "leavePost", post: "fireGuard" });
    await pass(20);
    expect((await holders(guarded.id))[1]).toBeNull();
    await pass(15);
    expect((await holders(guarded.id))[1]).toBe("Auto 2");
  });

  it("[RHS-21] with nobody at it, it starts the engines by itself, and the real start stays as it was", async () => {
    const before = await both.test.services.store.session(both.start);
    const { id } = await begin({});
    for (let i = 0; i < 40 && (await both.state(id)).stage !== "warmUp"; i += 1) await pass(30);
    const sent = (await facts(id)).flatMap((f) => (f.type === "sent" ? [f.kind] : []));
    expect(sent.filter((kind) => kind === "started")).toHaveLength(4);
    expect((await facts(id)).filter((f) => f.type === "refused")).toEqual([]);
    expect(await both.test.services.store.session(both.start)).toEqual(before);
    expect((await both.ask("GET", "/aircraft/CH-TST/standing")).json().items).toEqual([]);
  });

  it("[RHS-25] the desk freezes, hurries, throws and marks; nobody else may", async () => {
    const { id } = await begin({});
    const desk = (body: object, who = "fay") => both.ask("POST", `/rehearsals/${id}/desk`, who, body);
    const world = async (who = "fay") => (await both.ask("GET", `/rehearsals/${id}/world`, who)).json();
    await pass(5);
    expect((await desk({ do: "pace", frozen: true, speed: 1 }, "bo")).statusCode).toBe(403);
    expect((await desk({ do: "pace", frozen: true, speed: 1 })).statusCode).toBe(204);
    const { t } = await world();
    await pass(10);
    expect(await world()).toMatchObject({ t, frozen: true });
    expect((await desk({ do: "pace", frozen: false, speed: 4 })).statusCode).toBe(204);
    await pass(10);
    expect((await world()).t).toBeGreaterThanOrEqual(t + 38);
    expect((await desk({ do: "pace", frozen: false, speed: 9 })).statusCode).toBe(400);
    expect((await desk({ do: "throw", fault: "nacelleFire", engine: 2 })).statusCode).toBe(204);
    expect((await desk({ do: "mark", words: "Look here" })).statusCode).toBe(204);
    expect((await world()).sees).toEqual([{ fault: "nacelleFire", engine: 2 }]);
    const said = (await facts(id)).flatMap((f) => (f.type === "rehearsed" ? [f.said] : []));
    const by = { id: "fay", name: expect.stringMatching(/^person:/) };
    expect(said).toEqual([
      { is: "pace", frozen: true, speed: 1, by },
      { is: "pace", frozen: false, speed: 4, by },
      { is: "fault", fault: "nacelleFire", engine: 2, by },
      { is: "mark", words: "Look here", by },
    ]);
    await pass(2);
    expect((await both.state(id)).fires).toMatchObject([{ engine: 2, place: "nacelle" }]);
    expect((await both.state(both.start)).fires).toEqual([]);
  });

  it("[RHS-43] the desk says a word to one post: shown there alone for two minutes, recorded, and asking nothing", async () => {
    const { id } = await begin({ post: "fireGuard" });
    await pass(2);
    await both.command(CREW.fireGuard, id, { type: "claimPost", post: "fireGuard" });
    const desk = (body: object, who = "fay") => both.ask("POST", `/rehearsals/${id}/desk`, who, body);
    const word = async (who: string) => (await both.ask("GET", `/rehearsals/${id}/world`, who)).json().word;
    await desk({ do: "pace", frozen: true, speed: 1 });
    await pass(1);
    const asked = askedOf(await both.state(id), "fireGuard", 0);
    const say = { do: "say", post: "fireGuard", words: "Look at number two" };
    expect((await desk(say, "bo")).statusCode).toBe(403);
    expect((await desk({ ...say, post: "pilot" })).statusCode).toBe(400);
    expect((await desk(say)).statusCode).toBe(204);
    expect(await word("bo")).toEqual({ words: "Look at number two", by: "Fay" });
    expect(await word("fay")).toBeNull();
    expect(askedOf(await both.state(id), "fireGuard", 0)).toEqual(asked);
    expect((await facts(id)).filter((f) => f.type === "rehearsed")).toMatchObject([
      { said: { is: "pace", frozen: true } },
      { said: { is: "word", post: "fireGuard", words: "Look at number two", by: { id: "fay" } } },
    ]);
    await pass(119);
    expect(await word("bo")).not.toBeNull();
    await pass(1);
    expect(await word("bo")).toBeNull();
  });

  it("[RHS-26] a person in the cockpit reads the instruments and works the controls; the ground sees what is in sight", async () => {
    const { id } = await begin({ post: "cockpit" });
    await pass(3);
    await both.command(CREW.cockpit, id, { type: "claimPost", post: "cockpit" });
    await pass(1);
    const world = async (who: string) => (await both.ask("GET", `/rehearsals/${id}/world`, who)).json();
    const put = (controls: object | null, who: string) => {
      const url = `/api/rehearsals/${id}/hands`;
      return both.token(who).then((token) =>
        both.test.app.inject({
          ...{ method: "PUT", url, payload: { controls }, headers: { authorization: `Bearer ${token}` } },
        }),
      );
    };
    expect((await world("ada")).byHand).toBe(false);
    const held = { ...HANDS_OFF, starter: true };
    const hands = { engines: { 1: held }, vacuumFrom: null, generators: false };
    expect((await put(hands, "fay")).statusCode).toBe(403);
    expect((await put(hands, "ada")).statusCode).toBe(204);
    await pass(5);
    const seen = await world("ada");
    expect(seen).toMatchObject({ byHand: true, controls: hands });
    const rpm = seen.instruments.find(
      (i: { gauge: string; engine: number }) => i.gauge === "rpm" && i.engine === 1,
    );
    expect(rpm === undefined || rpm.reading.value > 50).toBe(true);
    const { sim } = both.test.services.rehearsals.running(id).view.playing.run;
    expect(sim.engines[0]?.is).toBe("cranking");
    await both.ask("POST", `/rehearsals/${id}/desk`, "fay", { do: "throw", fault: "exhaustFire", engine: 1 });
    expect((await world("ada")).sees).toEqual([]);
    expect((await world("fay")).sees).toEqual([{ fault: "exhaustFire", engine: 1 }]);
    expect((await put(null, "ada")).statusCode).toBe(204);
  });

  it("[RHS-70] each post reads what it is asked for: the cockpit the brakes, ground power the cart, a guard nothing", async () => {
    const reads = async (post: Post, person: Person) => {
      const { id } = await begin({ post });
      await pass(3);
      await both.command(person, id, { type: "claimPost", post });
      await pass(1);
      const { instruments } = (await both.ask("GET", `/rehearsals/${id}/world`, person.id)).json();
      await both.ask("DELETE", `/rehearsals/${id}`, "fay");
      return (instruments as { gauge: string }[]).map(({ gauge }) => gauge);
    };
    const cockpit = await reads("cockpit", CREW.cockpit);
    expect(cockpit).toContain("brakePressure");
    expect(cockpit).not.toContain("cartVolts");
    expect(await reads("groundPower", CREW.groundPower)).toEqual(["cartVolts"]);
    expect(await reads("fireGuard", CREW.fireGuard)).toEqual([]);
    const { id } = await begin({});
    await pass(3);
    const { instruments } = (await both.ask("GET", `/rehearsals/${id}/world`, "fay")).json();
    expect((instruments as { gauge: string }[]).map((i) => i.gauge)).toEqual(
      expect.arrayContaining(["brakePressure", "cartVolts"]),
    );
  });

  it("[RHS-70] a figure of a check that no gauge shows is read at the post that is asked for it", async () => {
    const { id } = await begin({ post: "cockpit" });
    await pass(3);
    await both.command(CREW.cockpit, id, { type: "claimPost", post: "cockpit" });
    const world = async (who: string) => (await both.ask("GET", `/rehearsals/${id}/world`, who)).json();
    for (let step = 0; step < 90 && (await both.state(id)).stage !== "powerUp"; step += 1) {
      const state = await both.state(id);
      const move = playPost(state, "cockpit", both.test.hand.clock.now(), { seed: 1, pace: 9, cart: "-" });
      if (move) await both.command(CREW.cockpit, id, move.action);
      await pass(4);
    }
    await pass(4);
    const { asked } = await world("ada");
    const state = await both.state(id);
    const wanted = askedOf(state, "cockpit", both.test.hand.clock.now()).map(({ key }) => key);
    expect(asked.length).toBeGreaterThan(0);
    for (const { ask, reading } of asked) {
      expect(wanted).toContain(ask);
      const range = state.type.checks.find((c) => ask.includes(c.id))?.range;
      expect(reading.unit).toBe(range?.unit);
      expect(reading.value).toBeGreaterThanOrEqual(range?.min ?? reading.value);
      expect(reading.value).toBeLessThanOrEqual(range?.max ?? reading.value);
    }
    expect((await world("bo")).asked).toEqual([]);
    expect((await world("fay")).asked).toEqual([]);
  });

  it("[RHS-71] another one begun for a post ends the one that its beginner plays alone, and none in which others play", async () => {
    const first = await begin({ post: "cockpit" }, "ada");
    await both.command(CREW.cockpit, first.id, { type: "claimPost", post: "cockpit" });
    const watched = await begin({}, "ada");
    expect((await both.state(first.id)).stage).toBe("plan");
    await both.ask("DELETE", `/rehearsals/${watched.id}`, "ada");
    const second = await begin({ post: "cockpit" }, "ada");
    expect((await both.state(first.id)).stage).toBe("abandoned");
    await both.command(CREW.cockpit, second.id, { type: "claimPost", post: "cockpit" });
    expect((await both.state(second.id)).posts.cockpit?.id).toBe("ada");
    await both.command(CREW.fireGuard, second.id, { type: "claimPost", post: "fireGuard" });
    await begin({ post: "groundPower" }, "ada");
    expect((await both.state(second.id)).stage).not.toBe("abandoned");
  });

  it("[RHS-22] a script of one's own is played, and one that does not fit is refused", async () => {
    const scripts = (await both.ask("GET", "/rehearsals/scripts")).json();
    expect(scripts).toHaveLength(6);
    const own = {
      ...scripts[0],
      id: "ours",
      faults: [{ fault: "lightning", which: 1, after: "begun", seconds: 1, chance: 1 }],
    };
    const { id } = await begin({ script: own });
    expect((await both.state(id)).rehearsal).toMatchObject({ script: "ours" });
    await pass(3);
    expect((await facts(id)).some((f) => f.type === "rehearsed")).toBe(true);
    await expect(begin({ script: "none" })).rejects.toThrow("no such script");
    await expect(begin({ script: { ...own, airC: 99 } })).rejects.toThrow("malformed");
    await expect(begin({ aircraft: "NONE" })).rejects.toThrow("no such aircraft");
  });

  it("[RHS-25] is ended when nothing happened in it for half an hour", async () => {
    const { id } = await begin({});
    await pass(3);
    both.test.services.rehearsals.running(id).stop();
    await both.test.hand.leap(31 * 60_000);
    await pass(6 * 60);
    expect((await both.state(id)).stage).toBe("abandoned");
    expect((await both.state(both.start)).stage).not.toBe("abandoned");
  });
});
