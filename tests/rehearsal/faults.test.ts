import { describe, expect, it } from "vitest";
import { personAt } from "../../seed/crew/stage.ts";
import { SCRIPTS } from "../../server/rehearsals/scripts.ts";
import { usualOrder } from "../../shared/plan/usualOrder.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { FAULTS, type FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import { FAULT } from "../../shared/rehearsal/faults.ts";
import { partnerMove } from "../../shared/rehearsal/partner.ts";
import { going } from "../../shared/rehearsal/run.ts";
import { type Moment, rehearsalScriptSchema } from "../../shared/rehearsal/script.ts";
import { isOver } from "../../shared/session/state.ts";
import { script, Theatre, TYPES } from "./theatre.ts";

const twin = TYPES.find((t) => t.engines.length === 2) ?? TYPES[0];
if (!twin) throw new Error("the demo has types");

/** The moment at which each fault makes sense. */
const WHEN: Readonly<Record<FaultKind, Moment>> = {
  noOilPressure: "cranking",
  oilLost: "running",
  hungStart: "cranking",
  kickback: "cranking",
  flooded: "cranking",
  inductionFire: "cranking",
  exhaustFire: "cranking",
  nacelleFire: "running",
  torching: "cranking",
  cartSags: "powerOn",
  cartDrops: "powerOn",
  plugFallsOut: "powerOn",
  generatorDead: "running",
  vacuumDead: "running",
  brakesBleed: "powerOn",
  guardLost: "running",
  personInArc: "running",
  wrongNumber: "cleared",
  handContradicts: "running",
  deadTablet: "running",
  networkGone: "running",
  lightning: "powerOn",
};

describe("a fault of a rehearsal", () => {
  it.each(FAULTS)("[RHS-20] %s is recorded, good partners answer it, and the rehearsal ends", (fault) => {
    const faults = [{ fault, which: 1, after: WHEN[fault], seconds: 1, chance: 1 }];
    const theatre = new Theatre(twin, script({ faults }), 3);
    expect(theatre.play(60, undefined, 1_000)).toBeNull();
    const began = theatre.events.findIndex(
      ({ fact }) => fact.type === "rehearsed" && fact.said.is === "fault",
    );
    expect(theatre.events[began]?.fact).toMatchObject({ said: { is: "fault", fault } });
    const { answers } = FAULT[fault];
    const after = theatre.events
      .slice(began)
      .map(({ fact }): string => (fact.type === "sent" ? fact.kind : fact.type));
    const expected: readonly string[] =
      fault === "lightning" ? ["flashSeen"] : fault === "wrongNumber" ? ["refused"] : answers;
    if (expected.length > 0) expect(expected.some((kind) => after.includes(kind))).toBe(true);
    else expect(after.filter((kind) => ["hold", "cut", "cutAll", "fire"].includes(kind))).toEqual([]);
  });

  it("[RHS-69] is seen by partners four times as soon when the rehearsal runs four times as fast", () => {
    const faults = [{ fault: "handContradicts", which: 1, after: "running", seconds: 1, chance: 1 }] as const;
    const theatre = new Theatre(twin, script({ faults: [...faults] }), 3);
    for (let s = 0; s < 1_800 && going(theatre.playing.run).length === 0; s += 1)
      theatre.play(1 / 60, undefined, 1_000);
    const seenAt = (pace: number) => {
      const company = { partners: POSTS, said: new Set<string>(), now: theatre.now, pace };
      return partnerMove(theatre.playing.run, theatre.state, "cockpit", company)?.move;
    };
    const [asPeople, faster] = [seenAt(1), seenAt(4)];
    expect(asPeople?.action).toMatchObject({ kind: "hold", channel: "hand" });
    expect(asPeople?.pauseMs).toBeGreaterThanOrEqual(1_500);
    expect(faster?.pauseMs).toBe((asPeople?.pauseMs ?? 0) / 4);
  });

  it("[RHS-20] that strikes by chance strikes by the seed alone", () => {
    const faults = [{ fault: "torching", which: 1, after: "cranking", seconds: 1, chance: 0.5 }] as const;
    const struck = (seed: number) => {
      const theatre = new Theatre(twin, script({ faults: [...faults] }), seed);
      theatre.play(10, undefined, 1_000);
      return theatre.events.filter(({ fact }) => fact.type === "rehearsed" && fact.said.is === "fault")
        .length;
    };
    const all = [1, 2, 3, 4, 5, 6, 7, 8].map(struck);
    expect(new Set(all)).toEqual(new Set([0, 1]));
    expect([1, 2, 3, 4].map(struck)).toEqual(all.slice(0, 4));
  });

  it("[RHS-21] the partners without faults start every engine of every type, and record nothing refused", () => {
    for (const type of TYPES) {
      const theatre = new Theatre(type, script({}), 5);
      expect(theatre.play(90, undefined, 1_000)).toBeNull();
      expect(theatre.state.stage).toBe("closed");
      expect(theatre.events.filter(({ fact }) => fact.type === "refused")).toEqual([]);
      expect(theatre.kinds().filter((k) => k === "started")).toHaveLength(type.engines.length);
    }
  });

  it("[RHS-21] they wait a quarter of an hour for a person who does nothing, and a minute where nobody is", () => {
    const [type] = TYPES;
    if (!type) throw new Error("the demo has no types");
    const left = (partners: readonly Post[]) => {
      const theatre = new Theatre(type, script({}), 5);
      theatre.partners = partners;
      const begun = theatre.now;
      expect(theatre.play(60, undefined, 1_000)).toBeNull();
      expect(theatre.state.stage).toBe("abandoned");
      return (theatre.now - begun) / 60_000;
    };
    expect(left(["fireGuard", "groundPower", "supervisor"])).toBeGreaterThan(15);
    expect(left(["fireGuard", "groundPower", "supervisor"])).toBeLessThan(25);
    const nobody = new Theatre(type, script({}), 5);
    nobody.do(personAt("cockpit"), { type: "leavePost", post: "cockpit" });
    nobody.partners = ["fireGuard", "groundPower", "supervisor"];
    const begun = nobody.now;
    expect(nobody.play(60, undefined, 1_000)).toBeNull();
    expect((nobody.now - begun) / 60_000).toBeLessThan(10);
  });

  it("[RHS-16] the same script, seed and type give the same run to the byte, another seed another", () => {
    const worst = SCRIPTS.at(-1);
    if (!worst) throw new Error("no scripts");
    const run = (seed: number) => {
      const theatre = new Theatre(twin, worst, seed);
      theatre.play(60, undefined, 1_000);
      return JSON.stringify([theatre.events, theatre.playing]);
    };
    expect(run(11)).toBe(run(11));
    expect(run(11)).not.toBe(run(12));
  });
});

describe("a dead generator", () => {
  const asked = TYPES.find((t) => t.card?.some((i) => "gauge" in i.kind && i.kind.gauge === "generatorLoad"));
  if (!asked) throw new Error("no type of the demo reads a generator's load");
  /** The readings of each engine's generator, in turn, and whether each was good. */
  const loads = (faults: Parameters<typeof script>[0]["faults"]) => {
    const theatre = new Theatre(asked, script({ faults: faults ?? [] }), 5);
    expect(theatre.play(60, undefined, 1_000)).toBeNull();
    return theatre.events.flatMap(({ fact }) =>
      fact.type === "cardAnswered" && fact.item === "generatorLoad"
        ? [{ engine: fact.engine, good: fact.good, value: fact.reading?.value }]
        : [],
    );
  };

  it("[RHS-44] is reported once by the partner in the cockpit, as its instrument shows, and a good one as good", () => {
    const sound = loads([]);
    expect(sound.length).toBeGreaterThan(0);
    expect(sound.filter(({ good }) => !good)).toEqual([]);
    const dead = sound[0]?.engine;
    const which = 1 + usualOrder(asked, "start").indexOf(dead ?? 0);
    const read = loads([{ fault: "generatorDead", which, after: "running", seconds: 0, chance: 1 }]);
    expect(read.filter(({ engine }) => engine === dead)).toEqual([{ engine: dead, good: false, value: 0 }]);
  });
});

describe("a vacuum that does not come alive", () => {
  /** Words about the horizon, with the seconds from the catch. */
  const horizon = (faults: Parameters<typeof script>[0]["faults"]) => {
    const theatre = new Theatre(twin, script({ faults: faults ?? [] }), 5);
    expect(theatre.play(60, undefined, 1_000)).toBeNull();
    return theatre.events.flatMap(({ fact }) =>
      fact.type === "cardAnswered" && fact.item === "horizon" ? [fact] : [],
    );
  };

  it("[RHS-45] is told as not alive once its time is over, once, and a good one as alive within it", () => {
    const within = twin.card?.flatMap((i) => (i.kind.is === "alive" ? [i.kind.within.value] : []))[0] ?? 0;
    const sound = horizon([]);
    expect(sound.length).toBe(2);
    for (const { good, afterS } of sound) expect([good, (afterS ?? 99) <= within]).toEqual([true, true]);
    const dead = horizon([{ fault: "vacuumDead", which: 1, after: "begun", seconds: 0, chance: 1 }]);
    expect(dead.filter(({ good }) => good)).toEqual([]);
    expect(dead.filter(({ engine }) => engine === dead[0]?.engine)).toHaveLength(1);
    expect(dead[0]?.afterS).toBeGreaterThanOrEqual(within);
  });
});

describe("a script", () => {
  it("[RHS-22] six come with the program, each ends, and each goes through JSON unchanged", () => {
    expect(SCRIPTS.map((s) => s.id)).toEqual([
      ...["firstDay", "slowStart", "readTheGauges", "people", "fireDay", "worstDay"],
    ]);
    for (const one of SCRIPTS) {
      expect(rehearsalScriptSchema.parse(JSON.parse(JSON.stringify(one)))).toEqual(one);
      const theatre = new Theatre(twin, one, 2);
      expect(theatre.play(60, undefined, 1_000), one.id).toBeNull();
      expect(isOver(theatre.state), one.id).toBe(true);
    }
  });

  it("[RHS-22] with an unknown fault, moment or field, or out of bounds, is refused with its place", () => {
    const bad = (faults: unknown, more = {}) =>
      rehearsalScriptSchema.safeParse({ ...script({}), faults, ...more }).error?.issues[0]?.path.join(".");
    const good = { fault: "torching", after: "cranking" };
    expect(bad([good])).toBeUndefined();
    expect(bad([{ ...good, fault: "earthquake" }])).toBe("faults.0.fault");
    expect(bad([{ ...good, after: "lunch" }])).toBe("faults.0.after");
    expect(bad([{ ...good, chance: 2 }])).toBe("faults.0.chance");
    expect(bad(Array.from({ length: 13 }, () => good))).toBe("faults");
    expect(bad([good], { airC: 80 })).toBe("airC");
    expect(bad([good], { run: "rm" })).toBe("");
  });

  it("[RHS-20] every fault says who can see it, and what a person says of it can be said by who sees it", () => {
    for (const fault of FAULTS) {
      const { seenBy, says, about } = FAULT[fault];
      expect(
        seenBy.every((p) => POSTS.includes(p)),
        fault,
      ).toBe(true);
      if (about !== "post" && fault !== "nacelleFire" && !fault.endsWith("Fire"))
        for (const { from } of says) for (const p of from) expect(seenBy, fault).toContain(p);
    }
  });
});
