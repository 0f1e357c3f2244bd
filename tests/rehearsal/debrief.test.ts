import { describe, expect, it } from "vitest";
import type { Action } from "../../shared/protocol/commands.ts";
import { type DebriefLine, debriefOf } from "../../shared/rehearsal/debrief.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { typeWith } from "../simulation/start.ts";
import { given } from "../spec/given.ts";
import { type Instead, script, Theatre } from "./theatre.ts";

const twin = typeWith(2);
const first = twin.defaultOrder[0] ?? 1;

const HARD = script({
  faults: [
    { fault: "noOilPressure", which: 1, after: "cranking", seconds: 1, chance: 1 },
    { fault: "nacelleFire", which: 2, after: "running", seconds: 2, chance: 1 },
  ],
});
const EASY = script({});

function played(over: RehearsalScript, instead?: Instead): DebriefLine[] {
  const theatre = new Theatre(twin, over, 4);
  expect(theatre.play(60, instead, 1_000)).toBeNull();
  return debriefOf(theatre.events);
}
const bad = (lines: readonly DebriefLine[]) => lines.filter((l) => !l.good);
const kinds = (lines: readonly DebriefLine[]) => [...new Set(bad(lines).map((l) => l.is))].sort();
const isSend = (action: Action, kind: string) => action.type === "send" && action.kind === kind;

describe("a debrief", () => {
  it("[RHS-30] of a good crew without faults has no bad line", () => {
    const lines = played(EASY);
    expect(bad(lines)).toEqual([]);
    expect(lines.filter((l) => l.is === "touches")).toHaveLength(4);
  });

  it("[RHS-30] of a good crew says when each fault was answered, and by whom", () => {
    const lines = played(HARD);
    const answered = lines.flatMap((l) => (l.is === "answered" ? [l] : []));
    expect(answered.map((l) => [l.fault, l.by])).toEqual([
      ["noOilPressure", "Partner at cockpit"],
      ["nacelleFire", "Partner at fireGuard"],
    ]);
    for (const { seconds } of answered) expect(seconds).toBeGreaterThan(0);
    expect(
      lines.some((l) => l.is === "notAnswered" || l.is === "unnecessary" || l.is === "wrongNumber"),
    ).toBe(false);
    expect(lines.flatMap((l) => (l.is === "drill" ? [l.missed] : [])).every((missed) => missed === 0)).toBe(
      true,
    );
  });

  it("[RHS-31] tells the crew that says nothing of a fire", () => {
    const lines = played(HARD, (_s, _p, action) => (isSend(action, "fire") ? null : action));
    expect(bad(lines)).toContainEqual(expect.objectContaining({ is: "notAnswered", fault: "nacelleFire" }));
  });

  it("[RHS-31] tells the nervous crew that holds without a cause", () => {
    let held = false;
    const lines = played(EASY, (state, _post, action) => {
      if (held || state.stage !== "starting") return action;
      held = true;
      return { type: "send", kind: "hold", channel: "panel" };
    });
    expect(kinds(lines)).toEqual(["unnecessary"]);
  });

  it("[RHS-31] tells the crew that reads a wrong number back", () => {
    let wrong = false;
    const lines = played(EASY, (_state, _post, action) => {
      if (wrong || action.type !== "answer" || action.answer !== "readBack") return action;
      wrong = true;
      return { ...action, engine: action.engine === 1 ? 2 : 1 };
    });
    expect(kinds(lines)).toContain("wrongNumber");
  });

  it("[RHS-31] tells the hasty crew that is refused", () => {
    let tried = false;
    const lines = played(EASY, (state, post, action) => {
      if (tried || state.stage !== "starting" || post !== "supervisor") return action;
      tried = true;
      return { type: "advance", to: "warmUp" };
    });
    expect(kinds(lines)).toEqual(["refused"]);
  });

  it("[RHS-31] tells the crew that cranks without a clearance", () => {
    let tried = false;
    const lines = played(EASY, (state, post, action) => {
      if (tried || state.stage !== "starting" || post !== "cockpit") return action;
      tried = true;
      return { type: "send", kind: "cranking", engine: first, channel: "panel" };
    });
    expect(bad(lines)).toContainEqual(
      expect.objectContaining({ is: "alert", kind: "turningUncleared", engine: first }),
    );
  });

  it("[RHS-31] tells the crew that skips the steps of a drill", () => {
    const lines = played(HARD, (state, _post, action) => {
      if (action.type !== "drillStep") return action;
      const run = state.drills[0];
      return run ? { type: "endDrill", run: run.id, outcome: "Skipped" } : null;
    });
    const drill = bad(lines).find((l) => l.is === "drill");
    expect(drill).toMatchObject({ good: false });
    expect(drill?.is === "drill" && drill.missed > 0).toBe(true);
  });

  it("[RHS-23] [RHS-31] tells the crew that runs an engine without oil pressure, by the type's limit", () => {
    const theatre = new Theatre(twin, HARD, 4);
    // Nobody stops it: the attempt is left after ten minutes.
    theatre.play(10, (_state, _post, action) => (isSend(action, "shutDown") ? null : action), 1_000);
    const lines = debriefOf(theatre.events);
    const dry = bad(lines).find((l) => l.is === "suffered");
    expect(dry).toMatchObject({
      what: "withoutOil",
      engine: first,
      allowed: twin.oil.firstIndication.within.value,
    });
    expect(kinds(lines)).toContain("notAnswered");
  });

  it("[RHS-30] of a start is empty, because it is no rehearsal", () => {
    const story = given();
    expect(debriefOf(story.log)).toEqual([]);
  });
});
