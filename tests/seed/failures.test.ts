import { describe, expect, it } from "vitest";
import { type Instead, personAt, type Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { attemptsLeft } from "../../shared/conditions/engines.ts";
import { plain } from "../../shared/engine/life.ts";
import { primeFigure } from "../../shared/figures/prime.ts";
import { momentsOf } from "../../shared/paper/moments.ts";
import { returnLog } from "../../shared/paper/returnLog.ts";
import { STOPPED_WARM } from "../../shared/partners/play.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { Fact } from "../../shared/protocol/events.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { engineOf, type SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import { lookupOf } from "../../shared/words/events.ts";
import { Day } from "./day.ts";
import { playOut } from "./stage.ts";

const SCRIPT = { seed: 3, pace: 1, cart: "Knocker" };
const four = demo.types.find((t) => t.engines.length === 4) as AircraftType;
const FIRST = four.defaultOrder[0] ?? 0;

const life = (state: SessionState, n: number) => {
  const engine = engineOf(state, n);
  return engine ? plain(engine.life).is : null;
};
const sent = (stage: Stage, kind: string) =>
  stage.events.flatMap(({ fact }) => (fact.type === "sent" && fact.kind === kind ? [fact.engine] : []));
const answers = (stage: Stage, engine?: number) =>
  stage.events.flatMap(({ fact }) =>
    fact.type === "cardAnswered" && fact.engine === engine ? [{ item: fact.item, good: fact.good }] : [],
  );
const refusals = (stage: Stage) =>
  stage.events.flatMap(({ fact }) => (fact.type === "refused" ? [fact.refusal.reason] : []));

/** The cockpit reports that an engine did not catch, as often as this. */
function failing(engine: number, times: number): Instead {
  return (state, _post, action) => {
    const catches = action.type === "send" && action.kind === "caught" && action.engine === engine;
    const failed = engineOf(state, engine)?.attempts ?? 0;
    if (!catches || failed > times) return action;
    return { type: "send", kind: "startAbandoned", engine, channel: "panel" };
  };
}

const send = (stage: Stage, post: Post, action: Action) => stage.do(personAt(post), action);
const play = (stage: Stage, until?: Parameters<typeof playOut>[2], instead?: Instead) =>
  expect(playOut(stage, SCRIPT, until, instead)).toBeNull();

describe("a start that goes wrong", () => {
  it("[CRD-22] [CRD-40] a flooded engine: after the failed attempt its short card is asked, and no prime", () => {
    const stage = new Day(four).plan();
    play(stage, undefined, failing(FIRST, 1));
    expect(stage.state.stage).toBe("closed");
    expect(sent(stage, "startAbandoned")).toEqual([FIRST]);
    expect(answers(stage, FIRST).map((a) => a.item)).toEqual([
      "setForStart",
      "boostPump",
      "vacuumSelector",
      "setToClear",
      "ifItFires",
      "boostPump",
      "vacuumSelector",
      "horizon",
      "hydraulicRises",
      "generatorLoad",
      "switchesOff",
    ]);
    expect(refusals(stage)).toEqual([]);
    // Its blades were counted anew between the two attempts.
    const at = (is: (f: Fact) => boolean) => stage.events.flatMap((e) => (is(e.fact) ? [e.seq] : []));
    const tries = at((f) => f.type === "sent" && f.kind === "cranking" && f.engine === FIRST);
    const counts = at((f) => f.type === "bladesCounted" && f.engine === FIRST);
    expect(tries).toHaveLength(2);
    expect(counts.filter((seq) => seq > (tries[0] ?? 0) && seq < (tries[1] ?? 0))).toHaveLength(1);
    // The other engines were started as usual.
    expect(answers(stage, four.defaultOrder[1]).map((a) => a.item)).toContain("setForStart");
  });

  it("[CRD-40] [FIG-20] a hot restart: the short card of a hot engine and its prime, within the type's time alone", () => {
    const day = new Day(four);
    const back = day.plan({ purpose: "return" });
    play(back);
    day.after(back, 1 / 6);
    const hot = day.plan();
    expect(primeFigure(hot.state, FIRST, hot.now)).toMatchObject({ words: "prime.hot", value: 0 });
    play(hot, (s) => life(s, FIRST) === "stable");
    const asked = answers(hot, FIRST).map((a) => a.item);
    expect(asked).toContain("setForHotStart");
    expect(asked).not.toContain("setForStart");

    const cold = new Day(four);
    const earlier = cold.plan({ purpose: "return" });
    play(earlier);
    cold.after(earlier, 2);
    const later = cold.plan();
    play(later, (s) => life(s, FIRST) === "stable");
    expect(answers(later, FIRST).map((a) => a.item)).toContain("setForStart");
  });

  it("[CRD-7] [CRD-41] no boost pressure: no clearance until it is read in its band", () => {
    const stage = new Day(four).plan();
    const low: Instead = (state, _post, action) => {
      const pump = action.type === "answerCard" && action.item === "boostPump" && action.engine === FIRST;
      const first = state.card?.[`boostPump:${FIRST}`] === undefined;
      if (!pump || !first) return action;
      return { ...action, reading: { value: 3, unit: "psi" } };
    };
    play(stage, (s) => s.card?.[`boostPump:${FIRST}`]?.good === false, low);
    const asked = send(stage, "cockpit", {
      type: "send",
      kind: "readyToStart",
      engine: FIRST,
      channel: "panel",
    });
    const cleared = send(stage, "supervisor", {
      type: "send",
      kind: "clearToStart",
      engine: FIRST,
      channel: "panel",
    });
    expect([asked.refusal, cleared.refusal].some((r) => r !== undefined)).toBe(true);
    expect(life(stage.state, FIRST)).not.toBe("clear");
    expect(cleared.refusal?.unmet?.map((u) => u.id) ?? []).toContain("cardAnswered");
    play(stage);
    expect(stage.state.stage).toBe("closed");
    const readings = answers(stage, FIRST).filter((a) => a.item === "boostPump");
    expect(readings.map((a) => a.good)).toEqual([false, true]);
  });

  it("[CRD-3] [CRD-41] a vacuum pump that does not come alive is on the record, and its check holds the warm-up", () => {
    const stage = new Day(four).plan();
    const dead: Instead = (state, _post, action) => {
      if (action.type === "answerCard" && action.item === "horizon" && action.engine === 3)
        return { ...action, good: false };
      const check = action.type === "recordCheck" && action.check === "suctionEngine3";
      return check && state.checks.suctionEngine3 === undefined
        ? { ...action, reading: { value: 2, unit: "inHg" } }
        : action;
    };
    play(stage, (s) => s.checks.suctionEngine3?.good === false, dead);
    expect(answers(stage, 3)).toContainEqual({ item: "horizon", good: false });
    const go = send(stage, "supervisor", { type: "advance", to: "release" });
    expect(go.refusal?.missing).toContain("check:suctionEngine3");
    // Mended and read again: the start goes on.
    play(stage);
    expect(stage.state.stage).toBe("closed");
  });

  it("[CON-20] [CRD-41] an attempt too many: after the type's number nothing clears this engine", () => {
    const most = four.starter.attempts?.value ?? 0;
    expect(most).toBeGreaterThan(0);
    const stage = new Day(four).plan();
    const failed = failing(FIRST, 99);
    play(stage, (s) => (engineOf(s, FIRST)?.attempts ?? 0) >= most && life(s, FIRST) === "cooling", failed);
    play(stage, (s) => life(s, FIRST) === "requested", failed);
    expect(attemptsLeft.find(stage.state, FIRST, stage.now)).toMatchObject({ is: "no", found: String(most) });
    const before = sent(stage, "clearToStart").length;
    expect(before).toBe(most);
    const later = stage.now + 20 * 60_000;
    play(stage, () => stage.now >= later, failed);
    expect(life(stage.state, FIRST)).toBe("requested");
    expect(sent(stage, "clearToStart")).toHaveLength(most);
    expect(sent(stage, "cranking")).toHaveLength(most);
  });
});

describe("a return that goes wrong", () => {
  it("[RTN-7] [RTN-22] a cool-down cut short: the engine stops at once, the reason is owed, the return is closed", () => {
    const day = new Day(four);
    const stage = day.plan({ purpose: "return" });
    play(stage, (s) => (s.returning?.coolingSince ?? null) !== null);
    const [first = 0] = stage.state.order;
    stage.now += 30_000;
    expect(
      send(stage, "cockpit", { type: "send", kind: "shutDown", engine: first, channel: "panel" }).refusal,
    ).toBe(undefined);
    play(stage);
    expect(stage.state.stage).toBe("closed");
    const log = returnLog(momentsOf(stage.events), lookupOf(stage.events, say));
    const short = log?.engines.filter((e) => e.short !== null) ?? [];
    expect(short.map((e) => e.n)).toEqual([first]);
    expect(short[0]?.short?.reason).toBe(STOPPED_WARM);
    expect(log?.engines.every((e) => e.still !== null)).toBe(true);
    day.after(stage, 1);
    // The reason is a defect that bars nothing.
    expect(day.record.items.map((i) => i.item.is)).toEqual(["defect"]);
  });

  it("[RTN-2] [RTN-22] one engine already stopped: nobody stops it, and its propeller is looked at all the same", () => {
    const stage = new Day(four).plan({ purpose: "return", order: [2, 3, 4] });
    play(stage);
    expect(stage.state.stage).toBe("closed");
    expect(sent(stage, "shutDown")).toEqual([2, 3, 4]);
    expect(sent(stage, "propellerStill").toSorted()).toEqual([1, 2, 3, 4]);
    expect(refusals(stage)).toEqual([]);
  });
});
