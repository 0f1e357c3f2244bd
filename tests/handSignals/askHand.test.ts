import { describe, expect, it } from "vitest";
import { ask, choice } from "../../shared/asks/ask.ts";
import { type AskedKind, isAsked, SIGNAL_KINDS, type SignalKind } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { askHand } from "../../web/posts/shared/askHand.ts";

const ENGINES = 4;
const answer = (kind: AskedKind, engine: number | null = null) =>
  ask({
    key: "signal:1",
    say: `answer.${kind}`,
    weight: 0,
    engine,
    choices: [choice("received", "yes", { type: "answer", signal: 1, answer: "received", channel: "panel" })],
  });
const send = (kind: SignalKind) => choice("received", "yes", { type: "send", kind, channel: "panel" });

describe("the figure beside an ask", () => {
  it("[HSG-6] is the one its asker gives, for every kind with a standard form, and none for the others", () => {
    for (const kind of SIGNAL_KINDS.filter(isAsked)) {
      const hand = askHand(answer(kind), ENGINES);
      expect(hand, kind).toEqual(
        signalOf(kind).standard ? { kind, engine: null, side: null, given: "toYou" } : null,
      );
    }
  });

  it("[HSG-6] knows a fire reported without an engine, and on which side an engine stands", () => {
    expect(askHand(answer("fire"), ENGINES)?.kind).toBe("fire");
    expect(askHand(answer("clearToStart", 2), ENGINES)?.side).toBe("port");
    expect(askHand(answer("clearToStart", 3), ENGINES)?.side).toBe("starboard");
  });

  it("[HSG-6] is else what the person would give by the first answer that has a form", () => {
    const given = askHand(
      ask({
        key: "a",
        say: "arcClear",
        weight: 2,
        engine: 4,
        choices: [send("arcNotClear"), send("arcClear")],
      }),
      ENGINES,
    );
    expect(given).toEqual({ kind: "arcClear", engine: 4, side: "starboard", given: "byYou" });
    expect(
      askHand(ask({ key: "b", say: "cranking", weight: 2, choices: [send("caught")] }), ENGINES),
    ).toBeNull();
    expect(askHand(ask({ key: "c", say: "brief", weight: 3 }), ENGINES)).toBeNull();
  });
});
