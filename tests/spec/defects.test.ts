import { describe, expect, it } from "vitest";
import { evolveRecord } from "../../shared/aircraft/evolve.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { conditionOf, findUnmet } from "../../shared/conditions/all.ts";
import { type DefectLife, livesAfter, timesBefore } from "../../shared/defects/lives.ts";
import { briefOf } from "../../shared/paper/brief.ts";
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
        deferrals: [{ at: wrote, name: office.name, until: "2031-03-04", reason: "Within the list" }],
        closed: {
          at: story.now,
          name: CREW.supervisor.name,
          reason: "Seal replaced",
          session: story.state.id,
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
