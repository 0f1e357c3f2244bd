import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { exchangeRows } from "../../shared/paper/exchange.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Signal } from "../../shared/session/state.ts";
import { fateOf, fateOfOld } from "../../shared/signals/fate.ts";
import { say } from "../../shared/words/en.ts";
import type { Outgoing } from "../../web/net/outgoing.ts";
import { stripsOf } from "../../web/pages/strips.ts";
import { planView } from "../../web/posts/shared/marks.ts";
import { sentRows } from "../../web/posts/shared/sentRows.ts";
import { Sent, type SentRow } from "../../web/ui/Sent.tsx";
import { wordsNow } from "../../web/words/words.ts";
import { given, type Story } from "../spec/given.ts";

const starting = () => given({}).upTo("starting");
const sequence = (story: Story) => story.last.events[0]?.seq ?? 0;

/** Returns the row of one recorded action in the list of what its sender said. */
function rowOf(story: Story, action: object, seq: number): SentRow {
  const item: Outgoing = {
    id: "x",
    session: story.state.id,
    action: action as Action,
    at: story.now,
    status: { is: "recorded", seq },
  };
  const [row] = sentRows(story.state, [item], AS_READ, wordsNow(), story.now);
  if (!row) throw new Error("no row");
  return row;
}

const clear = { type: "send", kind: "clearToStart", engine: 3, channel: "panel" };
const ready = { type: "send", kind: "readyToStart", engine: 3, channel: "panel" };

interface Case {
  signal: number;
  action: object;
  look: SentRow["is"];
  end: string | null;
}

/** For each fate of a signal: a way to it, and what its sender must see. */
const CASES: Readonly<Record<Signal["is"], (story: Story) => Case>> = {
  open(story) {
    story.requested(3);
    return { signal: sequence(story), action: ready, look: "recorded", end: null };
  },
  answered(story) {
    return { signal: story.readBack(3), action: clear, look: "recorded", end: null };
  },
  done(story) {
    return { signal: story.cranking(3), action: clear, look: "recorded", end: null };
  },
  unable(story) {
    story.requested(3);
    const signal = sequence(story);
    story.answer("supervisor", signal, "unable");
    return { signal, action: ready, look: "failed", end: "Answered unable: no permission" };
  },
  expired(story) {
    const signal = story.cleared(3);
    story.wait(story.state.type.timing.clearance.value);
    return { signal, action: clear, look: "failed", end: "Void: its time ran out" };
  },
  revoked(story) {
    const signal = story.readBack(3);
    story.send("fireGuard", "revokeClearance", { engine: 3 });
    return { signal, action: clear, look: "failed", end: "Void: no longer valid" };
  },
  readBackWrong(story) {
    const signal = story.cleared(3);
    story.answer("cockpit", signal, "readBack", 1);
    return { signal, action: clear, look: "failed", end: "Void: it was read back wrong" };
  },
  superseded(story) {
    story.requested(3);
    const signal = sequence(story);
    story.send("cockpit", "turning", { engine: 3 });
    return { signal, action: ready, look: "over", end: "Replaced by a newer one" };
  },
};

describe("what became of a signal", () => {
  for (const is of Object.keys(CASES) as Signal["is"][])
    it(`[PAN-29] ${is}: only a signal that counts looks good to its sender`, () => {
      const story = starting();
      const { signal, action, look, end } = CASES[is](story);
      const held = [...story.state.signals, ...story.state.ended].find((s) => s.id === signal);
      expect(held?.is).toBe(is);
      const row = rowOf(story, action, signal);
      expect({ is: row.is, end: row.end }).toEqual({ is: look, end });
      const markup = renderToStaticMarkup(
        createElement(Sent, {
          rows: [row],
          onAnew: () => {},
          onDrop: () => {},
          onCorrect: () => {},
          fresh: true,
        }),
      );
      expect(markup).toContain(`data-is="${look}"`);
      if (end) expect(markup).toContain(end);
    });

  it("[PAN-29] a wrong read-back is named by its number, as wrong and void", () => {
    const story = starting();
    const { signal, action } = CASES.readBackWrong(story);
    const [answer] = rowOf(story, action, signal).answers;
    expect(answer?.bad).toBe(true);
    expect(answer?.words).toContain("Cockpit: read back 1: wrong, void");
    const right = starting();
    const clearance = right.readBack(3);
    expect(rowOf(right, clear, clearance).answers).toMatchObject([{ bad: false }]);
  });

  it("[PAN-29] a read-back stops looking good with the clearance that it read back", () => {
    const story = starting();
    const clearance = story.readBack(3);
    const seq = sequence(story);
    const action = { type: "answer", signal: clearance, answer: "readBack", engine: 3, channel: "panel" };
    expect(rowOf(story, action, seq).is).toBe("recorded");
    story.send("groundPower", "hold");
    expect(rowOf(story, action, seq).is).toBe("failed");
  });

  it("[PAN-29] the guard's reports stop looking good when they are used, replaced or void", () => {
    const story = starting().requested(3);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    const place = sequence(story);
    story.send("fireGuard", "arcClear", { engine: 3 });
    const arc = sequence(story);
    const inPlace = { type: "send", kind: "guardInPlace", engine: 3 };
    const arcClear = { type: "send", kind: "arcClear", engine: 3 };
    expect([rowOf(story, inPlace, place).is, rowOf(story, arcClear, arc).is]).toEqual([
      "recorded",
      "recorded",
    ]);
    const used = story.copy();
    const clearance = sequence({ last: used.send("supervisor", "clearToStart", { engine: 3 }) } as Story);
    used.answer("cockpit", clearance, "readBack", 3);
    used.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(rowOf(used, arcClear, arc)).toMatchObject({ is: "over", end: "Used by the start of number 3" });
    expect(rowOf(used, inPlace, place).is).toBe("recorded");
    story.send("fireGuard", "guardAway");
    expect(rowOf(story, inPlace, place)).toMatchObject({ is: "over", end: "It no longer counts" });
    expect(rowOf(story, arcClear, arc)).toMatchObject({ is: "over", end: "It no longer counts" });
  });
});

it("[PAN-29] a signal that ended too long ago to be kept counts only if it reports what stands", () => {
  const { state } = starting().guarded(3);
  const of = (kind: "arcClear" | "readyToStart", id: number) => fateOfOld(state, { id, kind, engine: 3 }).is;
  expect(of("arcClear", state.arcs[3]?.seq ?? 0)).toBe("counts");
  expect(of("arcClear", 2)).toBe("over");
  expect(of("readyToStart", 2)).toBe("over");
});

describe("a clearance whose time ran out while the server is not heard", () => {
  const unheard = () => {
    const story = starting();
    const clearance = story.readBack(3);
    const twin = story.copy();
    story.unseen(story.state.type.timing.clearance.value * 1000);
    return { story, clearance, before: twin };
  };

  it("[PAN-29] is shown as over in the sent messages, on the plan, on the board and in the asks", () => {
    const { story, clearance, before } = unheard();
    const words = wordsNow();
    const shown = (s: Story) => ({
      sent: rowOf(s, clear, clearance).is,
      plan: planView(s.state, null, s.now, words).engines.find((e) => e.n === 3)?.shape,
      board: stripsOf([{ row: {} as never, state: s.state }], null, words, s.now)[0]?.engines.find(
        (e) => e.n === 3,
      )?.shape,
      asked: askedOf(s.state, "cockpit", s.now).some((a) => a.say === "crank"),
    });
    expect(shown(before)).toEqual({ sent: "recorded", plan: "clear", board: "clear", asked: true });
    expect(shown(story)).toEqual({ sent: "failed", plan: "still", board: "still", asked: false });
  });

  it("[PAN-29] asks for no read-back any more, and sends no guard to the engine", () => {
    const story = starting();
    const clearance = story.cleared(3);
    const says = (post: Post) => askedOf(story.state, post, story.now).map((a) => a.say);
    expect(says("cockpit")).toContain("answer.clearToStart");
    story.unseen(story.state.type.timing.clearance.value * 1000);
    expect(says("cockpit")).not.toContain("answer.clearToStart");
    expect(says("fireGuard")).not.toContain("guardInPlace");
    const signal = [...story.state.signals, ...story.state.ended].find((s) => s.id === clearance);
    expect(signal && fateOf(story.state, signal, story.now)).toEqual({ is: "failed", why: "expired" });
  });
});

/** Returns the tone of each row that the last action drew on the exchange chart. */
const tones = (story: Story) => {
  const last = new Set(story.last.events.map((e) => e.seq));
  return exchangeRows(story.log, say)
    .filter((r) => last.has(r.seq))
    .map((r) => r.tone);
};

describe("the exchange chart", () => {
  it("[PAN-29] draws signals that failed, ended or were withdrawn differently from those that count", () => {
    const unable = starting().requested(3);
    unable.answer("supervisor", unable.openSignal("readyToStart"), "unable");
    expect(tones(unable)).toEqual(["danger"]);
    const wrong = starting();
    wrong.answer("cockpit", wrong.cleared(3), "readBack", 1);
    expect(tones(wrong)).toEqual(["danger", "warning", "danger"]);
    const right = starting();
    right.readBack(3);
    expect(tones(right)).toEqual(["plain"]);
    const withdrawn = starting().requested(3);
    withdrawn.send("cockpit", "readyToStart", { engine: 2, note: "changed" });
    expect(tones(withdrawn)).toContain("warning");
  });
});
