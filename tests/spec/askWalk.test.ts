import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { STAGES } from "../../shared/protocol/stages.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { NEVER, wrongsOf } from "./askTruth.ts";
import { given, type Story, towards } from "./given.ts";
import { LIVELY, walks } from "./walks.ts";

const step = (words: string, more = {}) => ({ words, withinS: null, ...more });
const WITH_DRILLS: AircraftType = {
  ...LIVELY,
  drills: [
    {
      id: "oilLow",
      title: "No oil pressure",
      triggers: ["alert:oilFirstLate", "alert:oilNormalLate"],
      cards: {
        cockpit: [step("Shut it down")],
        fireGuard: [step("Look under it", { atStandstill: true })],
        groundPower: [],
        supervisor: [step("Write it up", { writesDefect: true })],
      },
      source: LIVELY.orderSource,
    },
  ],
};

/** Returns each wrong ask of a state, with its post. */
function wrongIn(state: SessionState, now: number): string[] {
  return POSTS.flatMap((post) =>
    askedOf(state, post, now).flatMap((a) =>
      wrongsOf(state, a, post).map((why) => `${post} ${a.key} ${a.say}: ${why}`),
    ),
  );
}

const begun = () => given({ type: WITH_DRILLS }).manned().upTo("starting");
const at = (tell: (story: Story) => unknown, stage: (typeof STAGES)[number] = "starting"): Story => {
  const story = towards(stage, { type: WITH_DRILLS }).manned().upTo(stage);
  tell(story);
  return story;
};

/** Returns the results of its arguments, which run in their order. */
const inTurn = (...done: unknown[]) => done;

/** Every life of an engine, with everything that cart, chocks and posts can be beside it. */
const ENGINE: Record<string, (s: Story) => unknown> = {
  waiting: () => {},
  requested: (s) => s.requested(3),
  guarded: (s) => s.requested(3).guarded(3),
  cleared: (s) => s.cleared(3),
  "read back": (s) => s.readBack(3),
  cranking: (s) => s.cranking(3),
  "past its starter's limit": (s) => inTurn(s.cranking(3), s.wait(41)),
  caught: (s) => s.caught(3),
  "without oil": (s) => s.caught(3).wait(6),
  "without normal oil": (s) => s.caught(3).wait(11),
  "shut down without oil": (s) => inTurn(s.caught(3).wait(6), s.send("cockpit", "shutDown", { engine: 3 })),
  running: (s) => s.running(3),
  stable: (s) => s.started(3),
  "stable and shut down": (s) => inTurn(s.started(3), s.send("cockpit", "shutDown", { engine: 3 })),
  abandoned: (s) => s.failedStart(3, 10),
  "seen turning": (s) => s.send("fireGuard", "turning", { engine: 3 }),
  "seen turning and shut down": (s) =>
    inTurn(s.send("fireGuard", "turning", { engine: 3 }), s.send("cockpit", "shutDown", { engine: 3 })),
  "on fire while cranking": (s) => inTurn(s.cranking(3), s.send("fireGuard", "fire", { engine: 3 })),
  "hands on it": (s) => inTurn(s.send("cockpit", "handlePropeller", { engine: 3 }), s.wait(1)),
  "hands on it, and it turns": (s) =>
    inTurn(
      s.send("cockpit", "handlePropeller", { engine: 3 }),
      s.send("supervisor", "turning", { engine: 3 }),
    ),
};
const AROUND: Record<string, (s: Story) => unknown> = {
  "nothing more": () => {},
  "old volts": (s) => s.wait(3600),
  "volts out of range": (s) => s.volts(20),
  "power lost on leave": (s) => s.powerOff(),
  "leave to disconnect": (s) => s.send("cockpit", "disconnectPower"),
  "asked to connect": (s) => s.send("groundPower", "connectPower"),
  "chocks out": (s) => inTurn(s.send("cockpit", "removeChocks"), s.send("groundPower", "chocksOut")),
  "leave to pull chocks": (s) => s.send("cockpit", "removeChocks"),
  "a hold": (s) => s.send("groundPower", "hold"),
  "a hold that was released": (s) =>
    inTurn(
      s.send("groundPower", "hold"),
      s.send("groundPower", "release", { ref: s.state.holds[0]?.id ?? 0 }),
    ),
  "a hold that not everybody answered": (s) =>
    inTurn(
      s.send("groundPower", "hold"),
      s.answer("supervisor", s.state.holds[0]?.id ?? 0, "received"),
      s.wait(6),
    ),
  "a cut done": (s) =>
    inTurn(s.send("groundPower", "cutAll"), s.answer("cockpit", s.state.cuts[0]?.id ?? 0, "done")),
  "a cut, and an engine that turns again": (s) =>
    inTurn(
      s.send("groundPower", "cutAll"),
      s.answer("cockpit", s.state.cuts[0]?.id ?? 0, "done"),
      s.send("fireGuard", "turning", { engine: 3 }),
    ),
  "no guard": (s) => s.say("fireGuard", { type: "leavePost", post: "fireGuard" }),
  "guard away": (s) => s.send("fireGuard", "guardAway"),
  "no ground power operator": (s) => s.say("groundPower", { type: "leavePost", post: "groundPower" }),
  "nobody answers": (s) => s.wait(20),
};

/** Every state in which a return can stand, with everything around it. */
const RETURN: Record<string, (s: Story) => unknown> = {
  "that turns": () => {},
  "that cools": (s) => inTurn(s.send("cockpit", "coolDown"), s.wait(30)),
  "that has cooled": (s) => s.cooled(),
  "stopped warm": (s) => s.send("cockpit", "shutDown", { engine: 2 }),
  "stopped and seen still": (s) => s.stopped(2),
  "seen still, and turning again": (s) =>
    inTurn(s.stopped(2), s.send("groundPower", "turning", { engine: 2 })),
  "stopped last": (s) => inTurn(...[2, 3, 1, 4].map((n) => s.send("cockpit", "shutDown", { engine: n }))),
  "seen still last": (s) => inTurn(...[2, 3, 1, 4].map((n) => s.stopped(n))),
  "seen still last, switches off": (s) =>
    inTurn(...[2, 3, 1, 4].map((n) => s.stopped(n)), s.send("cockpit", "switchesOff")),
  "with hands on it": (s) =>
    inTurn(s.upTo("stowing"), s.send("cockpit", "handlePropeller", { engine: 2 }), s.wait(1)),
  "with hands on it, and it turns": (s) =>
    inTurn(
      s.upTo("stowing"),
      s.send("cockpit", "handlePropeller", { engine: 2 }),
      s.send("supervisor", "turning", { engine: 2 }),
    ),
  "on fire": (s) => s.send("fireGuard", "fire", { engine: 2 }),
};

describe("no ask says what is false, unsafe or impossible", { timeout: 120_000 }, () => {
  it.each(Object.keys(ENGINE))("[ASK-8] with an engine %s", (life) => {
    for (const around of Object.keys(AROUND)) {
      for (const order of ["first", "after"] as const) {
        const story = begun();
        const tells = [ENGINE[life], AROUND[around]];
        for (const tell of order === "first" ? tells : tells.toReversed()) {
          try {
            tell?.(story);
          } catch {
            // A combination that cannot occur has no state to test.
          }
          expect(wrongIn(story.state, story.now), `${life}, ${around}, ${order}`).toEqual([]);
        }
      }
    }
  });

  it.each(Object.keys(RETURN))("[ASK-8] in a return, with an engine %s", (is) => {
    for (const stage of ["arrival", "stopping"] as const)
      for (const around of Object.keys(AROUND))
        for (const order of ["first", "after"] as const) {
          const story = towards(stage, { type: WITH_DRILLS, order: [2, 3, 1, 4] })
            .manned()
            .upTo(stage);
          const tells = [RETURN[is], AROUND[around]];
          for (const tell of order === "first" ? tells : tells.toReversed()) {
            try {
              tell?.(story);
            } catch {
              // A combination that cannot occur has no state to test.
            }
            expect(wrongIn(story.state, story.now), `${stage}, ${is}, ${around}, ${order}`).toEqual([]);
          }
        }
  });

  it.each(STAGES.filter((s) => s !== "closed" && s !== "abandoned"))("[ASK-8] in stage %s", (stage) => {
    for (const [around, tell] of Object.entries(AROUND)) {
      const story = at(tell, stage);
      expect(wrongIn(story.state, story.now), around).toEqual([]);
    }
  });

  it("[ASK-8] each rule has an ask that it looks at", () => {
    const met = new Set<string>();
    const look = ({ state, now }: Story) => {
      for (const post of POSTS)
        for (const asked of askedOf(state, post, now))
          for (const [why, asks] of NEVER) if (asks(asked)) met.add(why);
    };
    for (const tell of Object.values(RETURN)) {
      const story = towards("stopping", { type: WITH_DRILLS, order: [2, 3, 1, 4] })
        .manned()
        .upTo("stopping");
      tell(story);
      look(story);
    }
    for (const tell of [...Object.values(ENGINE), ...Object.values(AROUND)]) {
      const story = begun();
      tell(story);
      look(story);
    }
    for (const stage of ["secure", "groundPower", "warmUp", "release", "stopping", "stowing"] as const)
      for (const around of Object.values(AROUND)) look(at(around, stage));
    const written = begun().caught(3).wait(6);
    written.send("cockpit", "shutDown", { engine: 3 });
    written.say("supervisor", { type: "writeDefect", words: "no oil", engine: 3, barsStart: true });
    look(written);
    expect(NEVER.map(([why]) => why).filter((why) => !met.has(why))).toEqual([]);
  });

  it("[ASK-8] whatever four posts, time, restarts and clocks do", () => {
    let looked = 0;
    walks(
      (_before, { state, now }) => {
        if (now < state.at) return;
        looked += 1;
        const wrong = wrongIn(state, now);
        if (wrong.length > 0) expect(wrong).toEqual([]);
      },
      undefined,
      WITH_DRILLS,
    );
    expect(looked).toBeGreaterThan(1_000);
  });
});
