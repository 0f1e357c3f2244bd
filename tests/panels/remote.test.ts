import { describe, expect, it } from "vitest";
import { ask, choice, fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { send } from "../../shared/asks/send.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import {
  keyDoes,
  NOTHING_TAUGHT,
  type Press,
  type Shown,
  taughtFrom,
  teach,
  UNSEEN_MS,
} from "../../web/remote/keyDoes.ts";
import { thumbAnswer } from "../../web/remote/thumb.ts";
import { given, type Story } from "../spec/given.ts";
import { walks } from "../spec/walks.ts";

const TAUGHT = { answer: "PageDown", hold: "PageUp" };
const press = (code: string, over: Partial<Press> = {}): Press => ({
  code,
  key: code,
  repeat: false,
  trusted: true,
  combined: false,
  inField: false,
  ...over,
});
const READY: Shown = { answerable: true, busy: false, forMs: UNSEEN_MS };

describe("a taught key", () => {
  it("[REM-2] holds, whatever the panel shows", () => {
    for (const answerable of [true, false])
      for (const busy of [true, false])
        for (const forMs of [0, UNSEEN_MS])
          expect(keyDoes(TAUGHT, press("PageUp"), { answerable, busy, forMs })).toBe("hold");
  });

  it("[REM-3, REM-4] answers an ask that has an answer for it, stands long enough and has nothing open over it", () => {
    expect(keyDoes(TAUGHT, press("PageDown"), READY)).toBe("answer");
    for (const not of [{ answerable: false }, { busy: true }, { forMs: UNSEEN_MS - 1 }])
      expect(keyDoes(TAUGHT, press("PageDown"), { ...READY, ...not })).toBe("nothing");
  });

  it("[REM-5] does nothing when it repeats, and belongs to the remote all the same", () => {
    for (const key of ["PageUp", "PageDown"])
      expect(keyDoes(TAUGHT, press(key, { repeat: true }), READY)).toBe("nothing");
  });

  it("[REM-5] is no press unless a person made it, alone", () => {
    for (const key of ["PageUp", "PageDown"]) {
      expect(keyDoes(TAUGHT, press(key, { trusted: false }), READY)).toBeNull();
      expect(keyDoes(TAUGHT, press(key, { combined: true }), READY)).toBeNull();
    }
    expect(keyDoes(TAUGHT, press("KeyB"), READY)).toBeNull();
    expect(keyDoes(NOTHING_TAUGHT, press("PageUp"), READY)).toBeNull();
  });

  it("[REM-5] in a field only types if it types there, and answers nothing", () => {
    const letters = { answer: "KeyA", hold: "KeyH" };
    for (const [code, key] of Object.entries({ KeyA: "a", KeyH: "h" }))
      expect(keyDoes(letters, press(code, { key, inField: true }), READY)).toBeNull();
    expect(keyDoes({ answer: null, hold: "Enter" }, press("Enter", { inField: true }), READY)).toBeNull();
    expect(keyDoes(TAUGHT, press("PageDown", { inField: true }), READY)).toBe("nothing");
    expect(keyDoes(TAUGHT, press("PageUp", { inField: true }), READY)).toBe("hold");
  });
});

describe("teaching", () => {
  it("[REM-1] keeps the key's place, or its meaning where the device sends no place", () => {
    expect(teach(NOTHING_TAUGHT, "answer", press("Enter"))).toEqual({ answer: "Enter", hold: null });
    const media = { code: "", key: "AudioVolumeUp" };
    const both = teach({ answer: "Enter", hold: null }, "hold", media);
    expect(both).toEqual({ answer: "Enter", hold: "AudioVolumeUp" });
    expect(keyDoes({ answer: "Enter", hold: "AudioVolumeUp" }, press("", media), READY)).toBe("hold");
  });

  it("[REM-1] refuses a key that cannot be told, one that the panel needs, and one key for both", () => {
    expect(teach(NOTHING_TAUGHT, "hold", { code: "", key: "Unidentified" })).toBe("unknown");
    for (const key of ["Tab", "Escape", "ShiftLeft", "ControlRight", "AltLeft", "MetaLeft", "CapsLock"])
      expect(teach(NOTHING_TAUGHT, "hold", press(key)), key).toBe("keptBack");
    expect(teach(NOTHING_TAUGHT, "hold", { code: "", key: "Shift" })).toBe("keptBack");
    expect(teach(TAUGHT, "answer", press("PageUp"))).toBe("taken");
    expect(teach(TAUGHT, "answer", press("PageDown"))).toEqual(TAUGHT);
  });

  it("[REM-1] drops a stored value that is no such key", () => {
    expect(taughtFrom(TAUGHT)).toEqual(TAUGHT);
    for (const stored of [null, 3, "PageUp", [], { hold: 3 }, { hold: "" }, { answer: "Tab" }])
      expect(taughtFrom(stored), JSON.stringify(stored)).toEqual(NOTHING_TAUGHT);
    expect(taughtFrom({ answer: "KeyA", hold: "KeyA" })).toEqual({ answer: null, hold: "KeyA" });
  });
});

/** Returns what a remote sends: a signal's kind, an answer, or another action's type. */
const named = (action: Action): string => {
  if (action.type === "send") return action.kind;
  return action.type === "answer" ? action.answer : action.type;
};

/** Returns what the remote's key would send at any post now. */
function thumbed({ state, now }: Pick<Story, "state" | "now">): string[] {
  return POSTS.flatMap((post) =>
    askedOf(state, post, now).flatMap((a) => {
      const chosen = a.choices[thumbAnswer(a) ?? -1];
      const action = chosen && fill(chosen, {});
      return action ? [named(action)] : [];
    }),
  );
}

/** All that a remote may ever send besides a hold. */
const MAY = [
  "acknowledgeAlert",
  "arcClear",
  "chocksIn",
  "chocksOut",
  "drillStep",
  "guardInPlace",
  "powerDisconnected",
  "present",
  "received",
  "recordCheck",
  "willComply",
];

describe("the answer that a remote gives", () => {
  it("[REM-3] is in the list, whatever the crew, the clock and the link do", () => {
    const sent = new Set<string>();
    walks((_, story) => {
      // Every fourth state is enough: the asks seldom change from one to the next.
      if (story.state.seq % 4 !== 0) return;
      for (const what of thumbed(story)) sent.add(what);
    });
    expect([...sent].filter((what) => !MAY.includes(what))).toEqual([]);
    for (const what of ["arcClear", "guardInPlace", "received", "present", "acknowledgeAlert"])
      expect([...sent]).toContain(what);
  });

  it("[REM-3] is never a read-back, a clearance, a request, nor the step that uses a clearance", () => {
    const story = given().manned().upTo("starting");
    const at = (post: (typeof POSTS)[number], say: string) => {
      const found = askedOf(story.state, post, story.now).find((a) => a.say === say);
      expect(found, say).toBeDefined();
      return found && thumbAnswer(found);
    };
    expect(at("cockpit", "readyToStart")).toBeNull();
    story.requested(3).guarded(3);
    expect(at("supervisor", "clearToStart")).toBeNull();
    const clearance = story.send("supervisor", "clearToStart", { engine: 3 }).events[0]?.seq ?? 0;
    expect(at("cockpit", "answer.clearToStart")).toBeNull();
    story.answer("cockpit", clearance, "readBack", 3);
    expect(at("cockpit", "crank")).toBeNull();
  });

  it("[REM-3] is the clear arc, beside the answer that it is not", () => {
    const story = given().manned().upTo("starting").requested(3);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    const arc = askedOf(story.state, "fireGuard", story.now).find((a) => a.say === "arcClear");
    expect(arc?.choices[thumbAnswer(arc) ?? -1]?.word).toBe("arcClear");
  });

  it("[REM-3] is none when two could be meant, or when it needs an entry", () => {
    const of = (...choices: Parameters<typeof choice>[]) =>
      thumbAnswer(ask({ key: "k", say: "present", weight: 2, choices: choices.map((c) => choice(...c)) }));
    expect(of(["received", "yes", send("hold")])).toBe(0);
    expect(of(["unable", "no", send("hold")], ["received", "yes", send("hold")])).toBe(1);
    expect(of(["received", "yes", send("hold")], ["willComply", "yes", send("hold")])).toBeNull();
    expect(of(["received", "yes", send("hold"), { is: "engine" }])).toBeNull();
    expect(of()).toBeNull();
  });
});
