import { describe, expect, it } from "vitest";
import { evolveRecord } from "../../shared/aircraft/evolve.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { conditionOf, findUnmet } from "../../shared/conditions/all.ts";
import { barringDefectAsks } from "../../shared/defects/asks.ts";
import { isDeferred } from "../../shared/defects/barring.ts";
import { type DefectLife, livesAfter, timesBefore } from "../../shared/defects/lives.ts";
import { briefOf } from "../../shared/paper/brief.ts";
import { recordOf } from "../../shared/paper/record.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { FOUR } from "./aircraft.ts";
import { CREW, type Person } from "./given.ts";
import { Ramp } from "./ramp.ts";

const TYPE: AircraftType = {
  ...FOUR,
  conditions: [...new Set([...FOUR.conditions, "noBarringDefect" as const])],
};
const office: Person = { id: "sal", name: "Sal Penrose", device: "office", mayHold: ["supervisor"] };
const LEAK = { words: "Oil leak", engine: 2, barsStart: true } as const;

const day = (ms: number) => new Date(ms).toISOString().slice(0, 10);
const midnightAfter = (ms: number) => Date.parse(day(ms)) + 24 * 3_600_000;

/** Returns a ramp with a defect of number 2 that bars its start, and its number in the record. */
function leaking() {
  const ramp = new Ramp();
  ramp.act(office, { type: "writeDefect", ...LEAK });
  return { ramp, no: ramp.record.items[0]?.no ?? 0 };
}

const bars = (story: ReturnType<Ramp["plan"]>, now = story.now) =>
  findUnmet(story.state, 2, now).some((u) => u.id === "noBarringDefect");

/** Returns the lives of all defects of a ramp's record, by its events alone. */
function livesOf({ log }: Ramp): readonly DefectLife[] {
  let record: AircraftRecord | null = null;
  let lives: readonly DefectLife[] = [];
  for (const event of log) {
    const after = evolveRecord(record, event);
    lives = livesAfter(lives, record, event, after);
    record = after;
  }
  return lives;
}

describe("a deferred defect", () => {
  it("[DEF-3] bars no start to the end of its day, and then bars again by itself", () => {
    const { ramp, no } = leaking();
    const until = day(ramp.now);
    expect(
      ramp.act(office, { type: "deferDefect", no, until, reason: "Within the list" }).refusal,
    ).toBeUndefined();
    const story = ramp.plan({ type: TYPE }).manned();
    expect(story.state.defects).toMatchObject([{ deferred: { until, by: { name: office.name } } }]);
    const end = midnightAfter(ramp.now);
    expect([bars(story), bars(story, end - 1), bars(story, end)]).toEqual([false, false, true]);
  });

  it("[DEF-3] gives the clearance no longer than the deferral lasts", () => {
    const { ramp, no } = leaking();
    ramp.act(office, { type: "deferDefect", no, until: day(ramp.now), reason: "Within the list" });
    const { state, now } = ramp.plan({ type: TYPE }).manned();
    const found = conditionOf("noBarringDefect").find(state, 2, now);
    expect(found).toMatchObject({ is: "yes", until: midnightAfter(now) });
    expect(conditionOf("noBarringDefect").find(state, 1, now)).toMatchObject({ is: "yes", until: null });
  });

  it("[DEF-3] is deferred by a supervisor alone, to a day that is not over, while no session is open", () => {
    const { ramp, no } = leaking();
    const defer = (person: Person, over: object = {}) =>
      ramp.act(person, { type: "deferDefect", no, until: day(ramp.now), reason: "Later", ...over }).refusal
        ?.reason;
    expect(defer(CREW.fireGuard)).toBe("notQualified");
    expect(defer(office, { no: 99 })).toBe("nothingOpen");
    expect(defer(office, { until: "2020-01-01" })).toBe("outOfRange");
    const story = ramp.plan({ type: TYPE });
    expect(defer(office)).toBe("aircraftBusy");
    expect(bars(story)).toBe(true);
  });

  it.each(["en", "es"] as const)(
    "[DEF-3] is named with its day and its person on the %s brief",
    (language) => {
      const { ramp, no } = leaking();
      ramp.act(office, { type: "deferDefect", no, until: "2031-03-04", reason: "Within the list" });
      const { openDefects } = briefOf(ramp.plan({ type: TYPE }).state, [], SPOKEN[language]);
      expect(openDefects[0]).toMatch(/Oil leak.*4 (Mar|mar) 2031.*Sal Penrose/);
    },
  );
});

/** Returns a ramp of a house where mended defects are inspected, with a defect of number 2 that bars its start. */
function inspecting() {
  const { ramp, no } = leaking();
  ramp.inspectsDefects = true;
  return { ramp, no };
}

const inspector: Person = { id: "ivo", name: "Ivo Lann", device: "hangar", mayHold: ["supervisor"] };

describe("the inspection of a mended defect", () => {
  it("[DEF-5] [DEF-6] bars after it was closed in the office, until another supervisor inspects it", () => {
    const { ramp, no } = inspecting();
    ramp.act(office, { type: "end", no, reason: "Seal replaced" });
    const story = ramp.plan({ type: TYPE }).manned();
    expect(story.state.defects).toMatchObject([{ mended: { reason: "Seal replaced", person: office.id } }]);
    expect(bars(story)).toBe(true);
    const inspect = (person: Person) =>
      ramp.act(person, { type: "inspectDefect", no, reason: "Dry after a run" }).refusal?.reason;
    expect(inspect(office)).toBe("secondPersonNeeded");
    expect(inspect(CREW.fireGuard)).toBe("notQualified");
    expect(bars(story)).toBe(true);
    expect(inspect(inspector)).toBeUndefined();
    expect(story.state.defects).toEqual([]);
    expect(bars(story)).toBe(false);
    expect(inspect(inspector)).toBe("nothingOpen");
  });

  it("[DEF-5] [DEF-6] is asked for after a session closed it, whether the session or another wrote it", () => {
    const { ramp, no } = inspecting();
    const story = ramp.plan({ type: TYPE }).manned();
    story.say("fireGuard", { type: "writeDefect", words: "Cowl loose", engine: 1, barsStart: true });
    for (const { id } of story.state.defects)
      story.say("supervisor", { type: "closeDefect", defect: id, reason: "Mended" });
    ramp.settle(story);
    expect(findUnmet(story.state, 1, story.now).map((u) => u.id)).toContain("noBarringDefect");
    expect(bars(story)).toBe(true);
    expect(ramp.record.items.map(({ item }) => item.is === "defect" && item.mended?.person)).toEqual([
      CREW.supervisor.id,
      CREW.supervisor.id,
    ]);
    const own = ramp.record.items.find((i) => i.session === story.state.id)?.no ?? 0;
    const same = { ...CREW.supervisor, device: "home" };
    for (const item of [no, own]) {
      const inspect = { type: "inspectDefect", no: item, reason: "Seen" } as const;
      expect(ramp.act(same, inspect).refusal?.reason).toBe("secondPersonNeeded");
      expect(ramp.act(inspector, inspect).refusal).toBeUndefined();
    }
    expect(story.state.defects).toEqual([]);
    ramp.settle(story);
    expect(ramp.record.items).toEqual([]);
  });

  it("[DEF-5] bars a defect that was deferred before it was mended, and is not deferred after", () => {
    const { ramp, no } = inspecting();
    const defer = { type: "deferDefect", no, until: "2031-03-04", reason: "Within the list" } as const;
    ramp.act(office, defer);
    ramp.act(office, { type: "end", no, reason: "Seal replaced" });
    expect(ramp.act(office, defer).refusal?.reason).toBe("nothingOpen");
    expect(bars(ramp.plan({ type: TYPE }).manned())).toBe(true);
  });

  it("[DEF-5] is not asked of the supervisor at the stand, and a session keeps the rule it was planned with", () => {
    const { ramp, no } = inspecting();
    ramp.act(office, { type: "end", no, reason: "Seal replaced" });
    const story = ramp.plan({ type: TYPE, order: [2] }).upTo("starting");
    const asked = () => barringDefectAsks(story.state, story.now).map((a) => a.key);
    expect(asked()).toEqual([]);
    ramp.act(inspector, { type: "inspectDefect", no, reason: "Dry" });
    ramp.inspectsDefects = false;
    story.say("fireGuard", { type: "writeDefect", ...LEAK });
    const defect = story.state.defects[0]?.id ?? "";
    expect(asked()).toEqual([`defect:${defect}`]);
    story.say("supervisor", { type: "closeDefect", defect, reason: "Mended" });
    expect(story.last.events.map((e) => e.fact.type)).toContain("defectMended");
    expect(bars(story)).toBe(true);
  });

  it("[DEF-5] a mending of another session is not lost by what the defect's own session reports", () => {
    const ramp = new Ramp();
    ramp.inspectsDefects = true;
    const first = ramp.plan({ type: TYPE }).manned();
    first.say("fireGuard", { type: "writeDefect", ...LEAK });
    ramp.settle(first);
    const second = ramp.plan({ type: TYPE });
    second.manned();
    const [defect] = second.state.defects;
    second.say("supervisor", { type: "closeDefect", defect: defect?.id ?? "", reason: "Mended" });
    ramp.settle(second);
    first.wait(1);
    ramp.settle(first);
    expect(ramp.record.items).toMatchObject([{ item: { mended: { reason: "Mended" } } }]);
  });

  it("[DEF-5] [DEF-6] tells each mending, and who inspected it with what was found", () => {
    const { ramp, no } = inspecting();
    ramp.act(office, { type: "end", no, reason: "Line tightened" });
    ramp.now += 1000;
    ramp.act(inspector, { type: "end", no, reason: "Seal replaced" });
    expect(ramp.act(inspector, { type: "inspectDefect", no, reason: "Dry" }).refusal?.reason).toBe(
      "secondPersonNeeded",
    );
    ramp.now += 1000;
    ramp.act(office, { type: "inspectDefect", no, reason: "Dry" });
    expect(livesOf(ramp)).toMatchObject([
      {
        mendings: [
          { name: office.name, reason: "Line tightened", session: null },
          { name: inspector.name, reason: "Seal replaced", session: null },
        ],
        closed: { name: office.name, reason: "Dry", inspected: true },
      },
    ]);
  });

  it.each([
    ["en", /Oil leak.*Sal Penrose.*blocks the start until/],
    ["es", /Oil leak.*Sal Penrose.*impide el arranque hasta/],
  ] as const)("[DEF-5] is named on the %s brief", (language, said) => {
    const { ramp, no } = inspecting();
    ramp.act(office, { type: "end", no, reason: "Seal replaced" });
    expect(briefOf(ramp.plan({ type: TYPE }).state, [], SPOKEN[language]).openDefects[0]).toMatch(said);
  });

  it("[DEF-5] stays open in the printed record, with who mended it", () => {
    const ramp = new Ramp();
    ramp.inspectsDefects = true;
    const story = ramp.plan({ type: TYPE }).manned();
    story.say("fireGuard", { type: "writeDefect", ...LEAK });
    const defect = story.state.defects[0]?.id ?? "";
    story.say("supervisor", { type: "closeDefect", defect, reason: "Mended" });
    expect(recordOf(story.log, "", SPOKEN.en).defects).toMatchObject([
      { id: defect, mended: { reason: "Mended", by: expect.stringContaining("Di") }, closed: null },
    ]);
  });
});

describe("a defect deferred for a number of starts", () => {
  const over = (ramp: Ramp, story: ReturnType<Ramp["plan"]>) => {
    for (const post of ["supervisor", "cockpit"] as const)
      story.say(post, { type: "abandon", reason: "fog" });
    return ramp.settle(story);
  };
  const cranked = (ramp: Ramp, engine: number) => {
    const story = ramp.plan({ type: TYPE, order: [engine] }).upTo("starting");
    story.failedStart(engine, 3).wait(60);
    story.send("fireGuard", "propellerStill", { engine });
    return ramp.settle(story);
  };

  it("[DEF-7] bars none in the sessions of its starts, however often they crank, and bars the next", () => {
    const { ramp, no } = leaking();
    ramp.act(office, { type: "deferDefect", no, starts: 2, reason: "Within the list" });
    const first = cranked(ramp, 2);
    expect(bars(first)).toBe(false);
    expect(first.state.defects[0]?.startedSince ?? []).toEqual([]);
    over(ramp, first);
    over(ramp, cranked(ramp, 3));
    expect(livesOf(ramp)).toMatchObject([{ startedSince: [first.state.id] }]);
    const second = cranked(ramp, 2);
    expect(bars(second)).toBe(false);
    over(ramp, second);
    expect(bars(ramp.plan({ type: TYPE }).manned())).toBe(true);
    expect(livesOf(ramp)).toMatchObject([{ startedSince: [first.state.id, second.state.id] }]);
  });

  it("[DEF-7] counts any starter for a defect of the aircraft, and a new deferral from none", () => {
    const ramp = new Ramp();
    ramp.act(office, { type: "writeDefect", words: "Tyre worn", barsStart: true });
    const no = ramp.record.items[0]?.no ?? 0;
    const defer = { type: "deferDefect", no, starts: 1, reason: "Within the list" } as const;
    ramp.act(office, defer);
    over(ramp, cranked(ramp, 3));
    const barred = ramp.plan({ type: TYPE }).manned();
    expect(bars(barred)).toBe(true);
    over(ramp, barred);
    ramp.now += 1000;
    ramp.act(office, defer);
    expect(bars(ramp.plan({ type: TYPE }).manned())).toBe(false);
  });

  it("[DEF-7] ends with its day or its starts, whichever is over first, and needs one of them", () => {
    const { ramp, no } = leaking();
    const defer = (given: object) =>
      ramp.act(office, { type: "deferDefect", no, reason: "Later", ...given }).refusal?.reason;
    expect(defer({})).toBe("missingFigure");
    expect(defer({ until: day(ramp.now), starts: 5 })).toBeUndefined();
    const story = ramp.plan({ type: TYPE }).manned();
    const end = midnightAfter(ramp.now);
    expect([bars(story, end - 1), bars(story, end)]).toEqual([false, true]);
    const [defect] = story.state.defects;
    const used = Array.from({ length: 5 }, (_, i) => `s-${i}`);
    expect(defect && isDeferred({ ...defect, startedSince: used.slice(1) }, end - 1)).toBe(true);
    expect(defect && isDeferred({ ...defect, startedSince: used }, end - 1)).toBe(false);
  });

  it.each([
    ["en", /deferred for 3 starts, by Sal Penrose/],
    ["es", /aplazado por 3 arranques, por Sal Penrose/],
  ] as const)("[DEF-7] is named with its starts on the %s brief", (language, said) => {
    const { ramp, no } = leaking();
    ramp.act(office, { type: "deferDefect", no, starts: 3, reason: "Within the list" });
    const { openDefects } = briefOf(ramp.plan({ type: TYPE }).state, [], SPOKEN[language]);
    expect(openDefects[0]).toMatch(said);
  });
});

describe("a defect's life", () => {
  it("[DEF-4] tells who wrote it, who deferred it and why, and who closed it in a session with what was done", () => {
    const { ramp, no } = leaking();
    const wrote = ramp.now;
    ramp.act(office, { type: "deferDefect", no, until: "2031-03-04", reason: "Within the list" });
    const story = ramp.plan({ type: TYPE }).manned();
    const defect = story.state.defects[0]?.id ?? "";
    expect(
      story.say("supervisor", { type: "closeDefect", defect, reason: "Seal replaced" }).refusal,
    ).toBeUndefined();
    ramp.settle(story);
    expect(livesOf(ramp)).toEqual([
      {
        ...{ no, id: defect, ...LEAK },
        written: { at: wrote, name: office.name, session: null },
        deferrals: [
          { at: wrote, name: office.name, until: "2031-03-04", starts: null, reason: "Within the list" },
        ],
        startedSince: [],
        mendings: [],
        pictures: [],
        closed: {
          at: story.now,
          name: CREW.supervisor.name,
          reason: "Seal replaced",
          session: story.state.id,
          inspected: false,
        },
      },
    ]);
  });

  it("[DEF-4] tells who closed it in the office, and keeps one that a session wrote when the session is over", () => {
    const ramp = new Ramp();
    const story = ramp.plan({ type: TYPE }).manned();
    story.say("fireGuard", { type: "writeDefect", ...LEAK });
    ramp.settle(story);
    for (const post of ["supervisor", "cockpit"] as const)
      story.say(post, { type: "abandon", reason: "fog" });
    ramp.settle(story);
    expect(livesOf(ramp)).toMatchObject([
      { written: { name: CREW.fireGuard.name, session: story.state.id }, closed: null },
    ]);
    ramp.act(office, { type: "end", no: ramp.record.items[0]?.no ?? 0, reason: "Line tightened" });
    expect(livesOf(ramp)).toMatchObject([
      { closed: { name: null, reason: "Line tightened", session: null } },
    ]);
  });

  it("[DEF-4] counts how often the same words were written before at the same place", () => {
    const ramp = new Ramp();
    const write = (words: string, engine: number) => {
      ramp.act(office, { type: "writeDefect", words, engine, barsStart: false });
      const no = ramp.record.items.at(-1)?.no ?? 0;
      ramp.act(office, { type: "end", no, reason: "Mended" });
    };
    write("Oil leak", 2);
    write("Oil leak", 3);
    write(" oil  LEAK", 2);
    write("Oil leak", 2);
    const lives = livesOf(ramp);
    expect(lives.map((l) => timesBefore(lives, l))).toEqual([0, 0, 1, 2]);
  });
});
