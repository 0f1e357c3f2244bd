import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { LIVE_STAGES } from "../../shared/protocol/stages.ts";
import { commandFor } from "../../shared/replica/outbox.ts";
import { drill, drilled } from "../safety/types.ts";
import {
  ada,
  bo,
  CREW,
  cy,
  ed,
  fay,
  given,
  onDevice,
  type Person,
  type Say,
  type Story,
  towards,
} from "./given.ts";
import { Ramp } from "./ramp.ts";

const starting = () => given().upTo("starting");
const burning = (story: Story) => [1, 2, 3, 4].filter((n) => story.life(n) === "fire");
const report = (story: Story, who: Person, more: object = {}) =>
  story.does(who, { type: "send", kind: "fire", ...more }).events[0]?.seq ?? 0;
const at = (story: Story, who: Person, more: object) =>
  story.does(who, { type: "send", kind: "fireAt", ...more });

describe("a fire without an engine", () => {
  it("[FIR-12, CLR-14] ends each clearance, request and leave, bars every start, and alerts every post", () => {
    const story = starting();
    story.readBack(3);
    report(story, bo);
    expect([1, 2, 3, 4].map((n) => story.life(n))).toEqual(["waiting", "waiting", "waiting", "waiting"]);
    expect(story.raised("fire")).toMatchObject([{ to: [...POSTS] }]);
    for (const engine of [1, 2, 3, 4]) {
      expect(story.send("cockpit", "readyToStart", { engine }).refusal?.reason).toBe("stopOpen");
    }
    for (const post of POSTS.filter((p) => p !== "fireGuard")) {
      expect(askedOf(story.state, post, story.now)[0]).toMatchObject({ say: "answer.fire", engine: null });
    }
  });

  it("[FIR-12, FIR-4] lets no engine be cranked without a clearance until it is named", () => {
    const story = starting();
    const fire = report(story, bo);
    story.send("cockpit", "cranking", { engine: 2 });
    expect(story.turnsUncleared(2)).toBe(true);
    at(story, cy, { ref: fire, engine: 1 });
    expect(story.send("cockpit", "startAbandoned", { engine: 2 }).refusal).toBeUndefined();
    story.send("cockpit", "cranking", { engine: 1 });
    expect(story.underFire(1)).toBe("cranking");
    expect(story.told("sent").at(-1)).toMatchObject({ kind: "cranking", engine: 1 });
    expect(story.raised("turningUncleared")).toMatchObject([{ engine: 2 }]);
  });
});

describe("where a fire burns", () => {
  it.each(LIVE_STAGES)(
    "[FIR-11] in %s, by every post, an observer and a second device, however late",
    (stage) => {
      const story = towards(stage, { order: [3] })
        .manned()
        .upTo(stage);
      const fire = report(story, bo);
      for (const who of [...Object.values(CREW), ed, fay, onDevice(ada, "another")]) {
        for (const more of [
          { engine: 3 },
          { place: "nacelle" },
          { engine: 3, place: "exhaust" },
          {},
          { engine: 8 },
        ]) {
          const { refusal } = story.does(who, { type: "send", kind: "fireAt", ref: fire, ...more } as Say, 1);
          expect(refusal).toBeUndefined();
        }
      }
      expect(story.state.fires).toHaveLength(1);
      expect(burning(story)).toEqual([3]);
    },
  );

  it("[FIR-11] is sent by a panel however old, also before the server was heard", () => {
    const action = { type: "send", kind: "fireAt", engine: 3, channel: "panel" } as const;
    const id = "00000000-0000-4000-8000-000000000001";
    const command = commandFor({ id, session: "s", action, clientAt: 1 }, null);
    expect(command?.action).toEqual(action);
    expect(command).not.toHaveProperty("validUntil");
  });

  it("[FIR-11] without a number it is about the last fire of its sender", () => {
    const story = starting();
    const [first, second] = [report(story, ed), report(story, ed)];
    report(story, bo);
    at(story, ed, { engine: 2 });
    expect(story.state.fires.map((f) => [f.id, f.said?.[0]?.engine])).toMatchObject([
      [first, undefined],
      [second, 2],
      [story.state.fires[2]?.id, undefined],
    ]);
    expect(story.state.fires).toHaveLength(3);
  });

  it("[FIR-11] about a fire that does not stand it is a report of a fire", () => {
    const story = starting();
    const fire = report(story, bo);
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: fire });
    story.readBack(3);
    at(story, ed, { ref: fire, engine: 3, place: "nacelle" });
    expect(story.told("sent").at(-1)).toMatchObject({ kind: "fire", engine: 3, place: "nacelle" });
    expect(story.state.fires).toMatchObject([{ engine: 3, place: "nacelle", by: { name: "Ed" } }]);
    expect(story.underFire(3)).toBe("waiting");
    at(story, cy, { engine: 1 });
    expect(burning(story)).toEqual([1, 3]);
  });

  it("[FIR-13] two people name two engines: both burn and both are kept", () => {
    const story = starting().started(3);
    const fire = report(story, bo);
    at(story, bo, { ref: fire, engine: 3 });
    at(story, ed, { ref: fire, engine: 4, place: "exhaust" });
    at(story, cy, { ref: fire, place: "nacelle" });
    expect(burning(story)).toEqual([3, 4]);
    expect([story.underFire(3), story.underFire(4)]).toEqual(["stable", "waiting"]);
    expect(story.state.fires[0]?.said).toMatchObject([
      { engine: 3, place: "notSaid", person: "bo", by: { name: "Bo", post: "fireGuard" } },
      { engine: 4, place: "exhaust", person: "ed", by: { name: "Ed", post: null } },
      { engine: null, place: "nacelle", person: "cy" },
    ]);
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: fire });
    expect([story.life(3), story.life(4)]).toEqual(["stable", "shutDown"]);
  });

  it("[FIR-13, FIR-7] an engine named for two fires burns until both are out", () => {
    const story = starting();
    const [first, second] = [report(story, bo), report(story, cy)];
    for (const ref of [first, second]) at(story, bo, { ref, engine: 2 });
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: first });
    expect(story.state.engines[1]?.life).toMatchObject({ is: "fire", fire: second });
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: second });
    expect(story.life(2)).toBe("shutDown");
  });

  it("[FIR-13] a word takes back the first word that the fire is out, also one said before", () => {
    const story = starting();
    const fire = report(story, bo);
    for (const _ of [1, 2]) {
      story.send("fireGuard", "fireOut", { ref: fire });
      at(story, cy, { ref: fire, engine: 3 });
      expect(story.state.fires).toMatchObject([{ outBy: null }]);
    }
    story.send("supervisor", "fireOut", { ref: fire });
    expect(story.state.fires).toHaveLength(1);
    expect(story.state.fires[0]?.said).toHaveLength(1);
  });

  it("[FIR-13, FIR-2] a word cuts nothing and keeps the engine's life going", () => {
    const story = starting();
    story.cranking(3);
    at(story, bo, { ref: report(story, bo), engine: 3 });
    expect([story.life(3), story.underFire(3)]).toEqual(["fire", "cranking"]);
    expect(story.state.cuts).toEqual([]);
    expect(story.send("cockpit", "caught", { engine: 3 }).refusal).toBeUndefined();
  });

  it("[FIR-13] the ask of a fire names its engine once exactly one is known", () => {
    const story = starting();
    const fire = report(story, bo);
    const asked = () => askedOf(story.state, "cockpit", story.now)[0]?.engine;
    at(story, cy, { ref: fire, engine: 2 });
    expect(asked()).toBe(2);
    at(story, ed, { ref: fire, engine: 3 });
    expect(asked()).toBeNull();
  });
});

describe("the drill of a fire", () => {
  const all = { bars: "all" } as const;
  const UNSAID = { ...drill("fireSomewhere", "fire:notSaid"), ...all };
  const NACELLE = { ...drill("nacelle", "fire:nacelle"), bars: "engine" as const };
  const EXHAUST = { ...drill("exhaust", "fire:exhaust"), bars: "engine" as const };
  const TYPE = drilled(UNSAID, NACELLE, EXHAUST);
  const open = (story: Story) => story.state.drills.map((r) => [r.drill, r.engine]);
  const steps = (story: Story) =>
    askedOf(story.state, "cockpit", story.now).flatMap((a) =>
      a.say === "drill" ? [[a.from, a.engine]] : [],
    );
  const end = (story: Story, id: string) => {
    const run = story.state.drills.find((r) => r.drill === id)?.id ?? 0;
    return story.say("supervisor", { type: "endDrill", run, outcome: "worked" }).refusal;
  };

  it("[FIR-12, FIR-14] opens for every post at the touch, shows the engine once known, and bars every engine", () => {
    const story = given({ type: TYPE }).manned();
    const fire = report(story, bo);
    expect(open(story)).toEqual([["fireSomewhere", null]]);
    expect(steps(story)).toEqual([["fireSomewhere", null]]);
    at(story, bo, { ref: fire, engine: 3 });
    expect(open(story)).toEqual([["fireSomewhere", null]]);
    expect(steps(story)).toEqual([["fireSomewhere", 3]]);
    at(story, ed, { ref: fire, engine: 4 });
    expect(steps(story)).toEqual([["fireSomewhere", null]]);
  });

  it("[FIR-14] the place opens its card; the first card is asked no more and stays open until a person ends it", () => {
    const story = given({ type: TYPE }).manned();
    const fire = report(story, bo);
    at(story, cy, { ref: fire, place: "nacelle" });
    expect(open(story)).toEqual([
      ["fireSomewhere", null],
      ["nacelle", null],
    ]);
    expect(steps(story)).toEqual([["nacelle", null]]);
    at(story, bo, { ref: fire, engine: 3 });
    expect(open(story)).toHaveLength(2);
    expect(steps(story)).toEqual([["nacelle", 3]]);
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: fire });
    expect(steps(story)).toEqual([["nacelle", null]]);
    const asked = askedOf(story.state, "supervisor", story.now).filter((a) => a.say === "drillEnd");
    expect(asked).toHaveLength(1);
    expect(end(story, "fireSomewhere")).toBeUndefined();
    expect(open(story)).toEqual([["nacelle", null]]);
  });

  it("[FIR-14] each place at each engine, and never one twice", () => {
    const story = given({ type: TYPE }).manned();
    const fire = report(story, bo, { engine: 3, place: "nacelle" });
    expect(open(story)).toEqual([["nacelle", 3]]);
    at(story, ed, { ref: fire, engine: 4 });
    at(story, ed, { ref: fire, place: "exhaust" });
    at(story, cy, { ref: fire, engine: 3, place: "exhaust" });
    expect(open(story)).toEqual([
      ["nacelle", 3],
      ["nacelle", 4],
      ["exhaust", 3],
      ["exhaust", 4],
    ]);
    for (const id of ["nacelle", "nacelle", "exhaust", "exhaust"]) expect(end(story, id)).toBeUndefined();
    story.wait(60);
    expect(open(story)).toEqual([]);
  });

  it("[FIR-14] a card for the whole aircraft that was ended covers the engine named before, not one named after", () => {
    const story = given({ type: TYPE }).manned();
    const fire = report(story, bo, { place: "nacelle" });
    at(story, bo, { ref: fire, engine: 3 });
    expect(end(story, "nacelle")).toBeUndefined();
    expect(open(story)).toEqual([]);
    at(story, ed, { ref: fire, engine: 2 });
    expect(open(story)).toEqual([["nacelle", 2]]);
  });
});

describe("in the aircraft's record", () => {
  const over = (ramp: Ramp, story: Story) => {
    for (const f of story.state.fires) {
      for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: f.id });
    }
    return ramp.settle(story);
  };

  it("[FIR-15, STN-2] each open session is told of the word, whoever's the fire is, and none echoes it", () => {
    const ramp = new Ramp();
    const first = ramp.plan().manned();
    const second = ramp.plan().manned();
    report(first, bo);
    ramp.settle(first);
    at(second, CREW.supervisor, { ref: second.state.fires[0]?.id, engine: 3 });
    ramp.settle(second);
    at(first, ed, { ref: first.state.fires[0]?.id, engine: 2, place: "exhaust" });
    ramp.settle(first);
    for (const story of [first, second]) {
      expect(burning(story)).toEqual([2, 3]);
      expect(story.state.fires[0]?.said?.map((w) => [w.person, w.engine, w.place])).toEqual([
        ["di", 3, "notSaid"],
        ["ed", 2, "exhaust"],
      ]);
      expect(story.told("aircraftKnown")).toHaveLength(story === first ? 1 : 2);
    }
    over(ramp, first);
    expect([burning(first), burning(second), ramp.record.items]).toEqual([[], [], []]);
  });

  it("[FIR-15, STN-1] the next session begins with every engine named", () => {
    const ramp = new Ramp();
    ramp.act(ed, { type: "stop", is: "fire" });
    const no = ramp.record.items[0]?.no ?? 0;
    ramp.act(ed, { type: "fireAt", no, engine: 2 });
    ramp.act(fay, { type: "fireAt", no, engine: 4, place: "nacelle" });
    ramp.act(fay, { type: "fireAt", no, engine: 4, place: "nacelle" });
    expect(ramp.record.items).toHaveLength(1);
    const story = ramp.plan().manned();
    expect(burning(story)).toEqual([2, 4]);
    expect(story.state.fires).toMatchObject([
      { engine: null, said: [{ engine: 2 }, { engine: 4, place: "nacelle" }] },
    ]);
  });

  it("[FIR-15] without a number it is the person's last fire there; of none that stands it is a report", () => {
    const ramp = new Ramp();
    ramp.act(ed, { type: "stop", is: "fire" });
    ramp.act(ed, { type: "fireAt", place: "exhaust" });
    ramp.act(ed, { type: "stop", is: "fire" });
    expect(ramp.record.items.map((i) => i.item)).toMatchObject([
      { is: "fire", said: [{ place: "exhaust" }] },
    ]);
    ramp.act(fay, { type: "fireAt", no: 99, engine: 1 });
    expect(ramp.record.items.map((i) => i.item)).toMatchObject([
      { is: "fire" },
      { is: "fire", engine: 1, by: { name: "Fay" } },
    ]);
    expect(ramp.act(ed, { type: "fireAt", engine: 8 }).refusal).toBeUndefined();
  });

  it("[FIR-15, FIR-13] a word from the ramp page takes back a word that the fire is out", () => {
    const ramp = new Ramp();
    const story = ramp.plan().manned();
    report(story, bo);
    ramp.settle(story);
    story.send("fireGuard", "fireOut", { ref: story.state.fires[0]?.id ?? 0 });
    ramp.settle(story);
    ramp.act(ed, { type: "fireAt", no: ramp.record.items[0]?.no ?? 0, engine: 1 });
    expect(story.state.fires).toMatchObject([{ outBy: null, said: [{ engine: 1 }] }]);
  });
});
