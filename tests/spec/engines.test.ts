import { describe, expect, it } from "vitest";
import { starterDuty } from "../../shared/models/starter.ts";
import { LIVE_STAGES } from "../../shared/protocol/stages.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Story, towards } from "./given.ts";

const starting = (type?: AircraftType) => given(type ? { type } : {}).upTo("starting");
const s = (value: number) => ({ value, unit: "s", source: { basis: "published", text: "test" } }) as const;
/** Returns a story that is ready to crank engine 3: the crew has renewed every stale report. */
function refreshed(story: Story): Story {
  story.brakes();
  story.volts(28);
  if (story.life(3) === "requested") story.send("cockpit", "startAbandoned", { engine: 3 });
  return story.requested(3).guarded(3);
}
const clear3 = (story: Story) => refreshed(story).send("supervisor", "clearToStart", { engine: 3 }).refusal;

describe("engine life", () => {
  it("[ENG-1, ENG-2] one start, step by step", () => {
    const story = starting();
    const lives: string[] = [story.life(3)];
    const then = () => lives.push(story.life(3));
    story.requested(3);
    then();
    story.guarded(3);
    const clearance = story.send("supervisor", "clearToStart", { engine: 3 }).events[0]?.seq ?? 0;
    then();
    story.answer("cockpit", clearance, "readBack", 3);
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    then();
    story.wait(8).send("cockpit", "caught", { engine: 3 });
    then();
    expect(story.state.engines[2]?.starter).toMatchObject([{ off: story.now }]);
    story.wait(3).oil(3, 20);
    then();
    story.oil(3, 60);
    then();
    story.send("cockpit", "started", { engine: 3 });
    then();
    expect(lives).toEqual([
      "waiting",
      "requested",
      "clear",
      "cranking",
      "caught",
      "caught",
      "running",
      "stable",
    ]);
  });

  const from: [string, (story: Story) => unknown, string[]][] = [
    ["waiting", () => {}, ["cranking"]],
    ["requested", (t) => t.requested(3), ["cranking", "startAbandoned"]],
    ["clear", (t) => t.readBack(3), ["cranking", "startAbandoned"]],
    ["cranking", (t) => t.cranking(3), ["caught", "startAbandoned", "shutDown"]],
    ["caught", (t) => t.caught(3), ["shutDown"]],
    ["running", (t) => t.running(3), ["started", "shutDown"]],
    ["stable", (t) => t.started(3), ["shutDown"]],
    ["shutDown", (t) => t.started(3).send("cockpit", "shutDown", { engine: 3 }), ["cranking"]],
    ["cooling", (t) => t.failedStart(3, 5), ["cranking"]],
  ];
  it.each(from)("[ENG-3, ENG-4] from %s only what follows is taken", (life, reach, taken) => {
    for (const kind of ["cranking", "caught", "started", "startAbandoned", "shutDown"] as const) {
      const story = starting();
      reach(story);
      expect(story.life(3)).toBe(life);
      const { refusal } = story.send("cockpit", kind, { engine: 3 });
      expect({ kind, taken: refusal === undefined }).toEqual({ kind, taken: taken.includes(kind) });
      if (refusal && kind !== "cranking")
        expect(refusal).toMatchObject({ reason: "wrongEngineState", found: life });
    }
  });

  it.each(LIVE_STAGES)(
    "[ENG-4, ENG-5, TRN-1] an engine that turns in %s can be told of, and shut down",
    (stage) => {
      const story = towards(stage, { order: [3] })
        .manned()
        .upTo(stage);
      story.send("fireGuard", "turning", { engine: 2 });
      story.send("cockpit", "caught", { engine: 2 });
      expect(story.oil(2, 60).refusal).toBeUndefined();
      expect(story.life(2)).toBe("running");
      story.send("cockpit", "shutDown", { engine: 2 });
      expect(story.life(2)).toBe("shutDown");
    },
  );

  it("[ENG-6] waits without a request when the start is given up before cranking", () => {
    for (const reach of [
      (t: Story) => t.requested(3),
      (t: Story) => t.cleared(3),
      (t: Story) => t.readBack(3),
    ]) {
      const story = starting();
      reach(story);
      story.send("cockpit", "startAbandoned", { engine: 3 });
      expect(story.life(3)).toBe("waiting");
      expect(story.state.signals.filter((x) => x.engine === 3)).toEqual([]);
    }
  });
});

describe("starter ladder 40/60, 40/60, 40/1800 (TM 55-1510-215-10)", () => {
  it("[STR-1, STR-2] rests at exact boundaries", () => {
    const story = starting();
    const rests = [60, 60, 1800];
    for (const rest of rests) {
      story.failedStart(3, 40);
      story.unseen(rest * 1000 - 1);
      expect(clear3(story)).toMatchObject({
        reason: "conditionsUnmet",
        unmet: [{ id: "starterCool", is: "no" }],
      });
      story.unseen(1);
      expect(clear3(story)).toBeUndefined();
      story.send("cockpit", "startAbandoned", { engine: 3 });
    }
  });

  it("[STR-1] the model itself: off 59 s refuses, off 60 s allows, and the third rest is 30 minutes", () => {
    const on = (start: number, seconds: number) => ({ on: start * 1000, off: (start + seconds) * 1000 });
    const duty = (...uses: { on: number; off: number }[]) => starterDuty(FOUR.starter, uses, 0);
    expect(duty(on(0, 40))).toEqual({ step: 1, onMax: 40_000, permittedAt: 100_000 });
    expect(duty(on(0, 40), on(100, 40)).permittedAt).toBe(200_000);
    expect(duty(on(0, 40), on(100, 40), on(200, 40)).permittedAt).toBe((240 + 1800) * 1000);
    expect(starterDuty(FOUR.starter, [{ on: 0, off: null }], 99).permittedAt).toBe(Number.POSITIVE_INFINITY);
  });

  it("[STR-3] a rest of the reset length begins anew, a millisecond less does not", () => {
    const uses = [
      { on: 0, off: 40_000 },
      { on: 100_000, off: 140_000 },
    ];
    expect(starterDuty(FOUR.starter, uses, 140_000 + 1_799_999).step).toBe(2);
    expect(starterDuty(FOUR.starter, uses, 140_000 + 1_800_000).step).toBe(0);
    const later = [...uses, { on: 140_000 + 1_800_000, off: 140_000 + 1_840_000 }];
    expect(starterDuty(FOUR.starter, later, later[2]?.off ?? 0).permittedAt).toBe(
      (later[2]?.off ?? 0) + 60_000,
    );
  });

  it("[STR-1, STR-3] another ladder, 10 s on and 20 s off six times", () => {
    const starter = {
      ladder: Array.from({ length: 6 }, () => ({ onMax: s(10), rest: s(20) })),
      resetAfter: s(1800),
    };
    const uses = Array.from({ length: 6 }, (_, i) => ({ on: i * 30_000, off: i * 30_000 + 10_000 }));
    uses.forEach((use, i) => {
      const duty = starterDuty(starter, uses.slice(0, i + 1), use.off);
      expect(duty).toEqual({ step: Math.min(i + 1, 5), onMax: 10_000, permittedAt: use.off + 20_000 });
    });
  });

  it("[STR-4] an engagement of one second counts, cleared or not", () => {
    const story = starting().failedStart(3, 1);
    expect(clear3(story)).toMatchObject({ unmet: [{ id: "starterCool" }] });
    const turned = starting();
    turned.send("cockpit", "turning", { engine: 3 });
    turned.wait(1).send("cockpit", "startAbandoned", { engine: 3 });
    expect(turned.state.engines[2]).toMatchObject({ attempts: 1, life: { is: "cooling" } });
  });

  it("[STR-5] has a limit: 40 s is within it, 41 s is not, and that is recorded once", () => {
    const story = starting();
    story.cranking(3);
    expect(story.wait(40).alerts).toEqual([]);
    expect(story.waitMs(1).told("alertRaised")).toMatchObject([
      { kind: "starterLimit", engine: 3, to: ["cockpit"] },
    ]);
    story.wait(60);
    expect(story.alerts).toEqual(["starterLimit"]);
    const short = starting();
    short.cranking(3);
    short.wait(40).send("cockpit", "caught", { engine: 3 });
    expect(short.alerts).toEqual([]);
  });

  it("[STR-6] cools until its rest is over, without any action", () => {
    const story = starting().failedStart(3, 5);
    expect(story.waitMs(59_999).life(3)).toBe("cooling");
    expect(story.waitMs(1).life(3)).toBe("waiting");
  });
});

describe("oil pressure", () => {
  // First indication 5 s, normal 10 s (a large transport's manual); 30 s and 60 s (AC 61-21, summer and winter).
  const profile = (first: number, normal: number): AircraftType => ({
    ...FOUR,
    oil: {
      firstIndication: { ...FOUR.oil.firstIndication, within: s(first) },
      normal: { ...FOUR.oil.normal, within: s(normal) },
    },
  });
  const trace = (type: AircraftType, first: number, normal: number) => {
    const story = starting(type);
    story.caught(3);
    story.waitMs(first).oil(3, 5);
    story.waitMs(normal - first).oil(3, 40);
    return story;
  };

  it("[OIL-1, OIL-2] readings at their limits are in time", () => {
    const story = starting().caught(3);
    story.unseen(5_000).oil(3, 5);
    story.unseen(5_000).oil(3, 40);
    expect([story.life(3), ...story.alerts]).toEqual(["running"]);
  });

  it("[OIL-1, OIL-2] a millisecond later each alert is raised, once", () => {
    const story = starting().caught(3);
    expect(story.waitMs(5_000).alerts).toEqual([]);
    expect(story.waitMs(1).told("alertRaised")).toMatchObject([
      { kind: "oilFirstLate", engine: 3, to: ["cockpit", "supervisor"] },
    ]);
    expect(story.waitMs(4_999).alerts).toEqual(["oilFirstLate"]);
    expect(story.waitMs(1).alerts).toEqual(["oilFirstLate", "oilNormalLate"]);
    expect(story.wait(600).alerts).toHaveLength(2);
  });

  it("[OIL-1] keeps the second limit after a first indication in time; too low a pressure is no indication", () => {
    const story = starting().caught(3);
    story.wait(3).oil(3, 4.9);
    story.wait(1).oil(3, 5);
    expect(story.wait(10).alerts).toEqual(["oilNormalLate"]);
  });

  it("[OIL-3] never shuts an engine down by itself", () => {
    const story = starting().caught(3).wait(3600);
    expect(story.life(3)).toBe("caught");
    expect(story.told("sent").map((f) => f.kind)).not.toContain("shutDown");
  });

  it.each([
    [5_000, 10_000, 0, 0],
    [5_001, 10_000, 1, 0],
    [20_000, 50_000, 2, 0],
    [31_000, 50_000, 2, 1],
    [31_000, 61_000, 2, 2],
  ])(
    "[OIL-4] indication after %i ms, normal after %i ms: %i alerts under 5/10 s, %i under 30/60 s",
    (first, normal, quick, slow) => {
      expect(trace(profile(5, 10), first, normal).alerts).toHaveLength(quick);
      expect(trace(profile(30, 60), first, normal).alerts).toHaveLength(slow);
    },
  );
});
