import { describe, expect, it } from "vitest";
import { REFUSAL_REASONS, type RefusalReason } from "../../shared/protocol/refusals.ts";
import { refusals } from "../../shared/words/en/refusals.ts";
import { RICH } from "../figures/rich.ts";
import { WATCHED, withTiming } from "../safety/types.ts";
import { FOUR } from "./aircraft.ts";
import { CART } from "./equipped.ts";
import { ada, bo, CREW, di, ed, fay, given, onDevice, type Person, type Say, type Story } from "./given.ts";

const TRACE: Say = {
  type: "giveVoltTrace",
  samples: [
    [0, 28],
    [20, 28],
  ],
  cranking: [],
  endedAgoMs: 0,
};

const SLIPS = withTiming(FOUR, { slip: 5 });

/** Ed holds, something may happen, and somebody takes the hold back as a slip. */
function slipped(story: Story, who: Person, between: (story: Story) => unknown = () => {}): Story {
  const ref = story.does(ed, { type: "send", kind: "hold" }).state.holds[0]?.id ?? 0;
  between(story);
  story.does(who, { type: "send", kind: "disregard", ref });
  return story;
}

/**
 * One way to each refusal a session gives. `idReused` is the server's: it never reaches the session. `clearanceVoid` stands
 * in older records only.
 */
const WAYS: Readonly<Record<Exclude<RefusalReason, "idReused" | "clearanceVoid">, () => Story>> = {
  conditionsUnmet: () => {
    const story = given().upTo("starting").requested(3);
    story.send("supervisor", "clearToStart", { engine: 3 });
    return story;
  },
  requirementsUnmet: () =>
    after(given().manned().upTo("brief"), (s) => s.say("cockpit", { type: "advance", to: "secure" })),
  wrongPost: () => after(given().manned(), (s) => s.say("fireGuard", { type: "abandon", reason: "x" })),
  wrongStage: () => after(given().manned(), (s) => s.send("groundPower", "chocksIn")),
  notQualified: () => after(given(), (s) => s.does(bo, { type: "claimPost", post: "cockpit" })),
  noSuchEngine: () =>
    after(given().upTo("starting"), (s) => s.send("cockpit", "readyToStart", { engine: 5 })),
  engineNeeded: () => after(given().upTo("starting"), (s) => s.send("cockpit", "readyToStart")),
  wrongEngineState: () => after(given().upTo("starting"), (s) => s.send("cockpit", "caught", { engine: 1 })),
  readBackWrong: () => {
    const story = given().upTo("starting");
    story.answer("cockpit", story.cleared(3), "readBack", 2);
    return story;
  },
  clearanceUsed: () => {
    const story = given().upTo("starting");
    story.cranking(3);
    story.send("cockpit", "cranking", { engine: 3 });
    return story;
  },
  clearanceExpired: () => {
    const story = given().upTo("starting");
    const clearance = story.cleared(3);
    story.wait(30);
    story.answer("cockpit", clearance, "readBack", 3);
    return story;
  },
  noSuchSignal: () => after(given().manned(), (s) => s.answer("cockpit", 99, "received")),
  notAddressed: () => {
    const story = given().upTo("starting");
    const clearance = story.cleared(3);
    story.answer("fireGuard", clearance, "readBack", 3);
    return story;
  },
  signalClosed: () => {
    const story = given().upTo("starting");
    const clearance = story.readBack(3);
    story.answer("cockpit", clearance, "readBack", 3);
    return story;
  },
  answerNotAllowed: () => {
    const story = given().upTo("starting");
    story.answer("cockpit", story.cleared(3), "done");
    return story;
  },
  noAuthority: () => after(given().upTo("groundPower"), (s) => s.volts(28)),
  notAtEngine: () => after(given().upTo("starting"), (s) => s.send("fireGuard", "arcClear", { engine: 3 })),
  stopOpen: () => {
    const story = given().upTo("starting");
    story.send("fireGuard", "hold");
    story.send("cockpit", "readyToStart", { engine: 3 });
    return story;
  },
  aircraftBusy: () => {
    const story = given().manned().upTo("brief");
    story.elsewhere = "K7M2";
    story.say("supervisor", { type: "advance", to: "secure" });
    return story;
  },
  badReport: () =>
    after(given().manned(), (s) => s.say("supervisor", { type: "recordWeather", metar: "fair and mild" })),
  postHeld: () => after(given().manned(), (s) => s.does(fay, { type: "claimPost", post: "cockpit" })),
  postVacant: () =>
    after(given().manned(["supervisor"]), (s) =>
      s.say("supervisor", { type: "vacatePost", post: "cockpit", reason: "x" }),
    ),
  alreadyHoldsPost: () => {
    const story = given();
    story.does(fay, { type: "claimPost", post: "cockpit" });
    story.does(fay, { type: "claimPost", post: "supervisor" });
    return story;
  },
  postElsewhere: () => {
    const story = given();
    story.postElsewhere = { code: "K7M2", post: "cockpit" };
    story.does(fay, { type: "claimPost", post: "fireGuard" });
    return story;
  },
  notStandingHere: () => {
    const story = given().upTo("starting").requested(3).guarded(3);
    story.supervises("CH-OTH");
    story.send("supervisor", "clearToStart", { engine: 3 });
    return story;
  },
  stillSilent: () => {
    const story = given({ type: WATCHED }).upTo("starting").requested(3).wait(45);
    story.say("cockpit", { type: "present" });
    story.send("cockpit", "release", { ref: story.state.holds[0]?.id ?? 0 });
    return story;
  },
  notOffered: () => after(given().manned(), (s) => s.does(fay, { type: "acceptPost", post: "cockpit" })),
  notYourHold: () => {
    const story = given().manned();
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    story.send("supervisor", "release", { ref: hold, note: "looks fine" });
    return story;
  },
  secondPersonNeeded: () =>
    after(given().manned(), (s) => s.say("cockpit", { type: "offerPost", post: "cockpit", to: "ada" })),
  noSlips: () => slipped(given().manned(), ed),
  slipOver: () => slipped(given({ type: SLIPS }).manned(), ed, (s) => s.wait(5)),
  notYourSlip: () => slipped(given({ type: SLIPS }).manned(), di),
  slipActedOn: () => slipped(given({ type: SLIPS }).manned(), ed, (s) => s.send("cockpit", "hold")),
  nothingOpen: () => after(given().manned(), (s) => s.send("cockpit", "resetCut", { ref: 1 })),
  missingFigure: () => after(given().upTo("secure"), (s) => s.send("cockpit", "brakesSet")),
  wrongUnit: () =>
    after(given().upTo("secure"), (s) =>
      s.send("cockpit", "brakesSet", { pressure: { value: 80, unit: "bar" } }),
    ),
  outOfRange: () => after(given().upTo("starting"), (s) => s.oil(1, 201)),
  noSuchGauge: () => after(given().upTo("starting"), (s) => s.reading("manifold", 1, 30, "psi")),
  noSuchCheck: () =>
    after(given().manned(), (s) => s.say("cockpit", { type: "recordCheck", check: "magic", good: true })),
  powerNotOn: () => after(given({ type: RICH }).manned().upTo("powerUp"), (s) => s.say("groundPower", TRACE)),
  noEnvelope: () => after(given().upTo("starting"), (s) => s.say("groundPower", TRACE)),
  currencyLapsed: () => {
    const story = given();
    story.lapsed = "Fire training";
    story.does(fay, { type: "claimPost", post: "fireGuard" });
    return story;
  },
  noSuchEquipment: () =>
    after(given().manned(), (s) => s.say("groundPower", { type: "showEquipment", label: "GPU-1" })),
  equipmentBarred: () => {
    const story = given().manned();
    story.equipment = { facts: CART, barred: true };
    story.say("groundPower", { type: "showEquipment", label: CART.id });
    return story;
  },
  badOrder: () => after(given().upTo("starting"), (s) => s.send("cockpit", "readyToStart", { engine: 1 })),
  notOverridable: () =>
    after(given().upTo("starting"), (s) =>
      s.say("cockpit", { type: "override", condition: "arcClear", engine: 3, reason: "in a hurry" }),
    ),
  notShelvable: () => {
    const story = given().manned();
    story.send("fireGuard", "hold");
    story.say("cockpit", { type: "shelveAlert", alert: story.state.alerts[0]?.id ?? 0, minutes: 5 });
    return story;
  },
  noSuchDrill: () => after(given().manned(), (s) => s.say("cockpit", { type: "startDrill", drill: "magic" })),
  notWitnessable: () =>
    after(given().upTo("starting"), (s) =>
      s.send("cockpit", "clearToStart", { engine: 1, channel: "hand", seenFrom: "supervisor" }),
    ),
  tooSoon: () => {
    const { timing } = FOUR;
    const handsAfterStart = { ...timing.service, value: 90 };
    const story = given({ type: { ...FOUR, timing: { ...timing, handsAfterStart } } }).upTo("starting");
    story.failedStart(3, 10).send("cockpit", "handlePropeller", { engine: 3 });
    return story;
  },
  turnedUnderHands: () => {
    const story = given().upTo("starting");
    story.send("cockpit", "handlePropeller", { engine: 3 });
    story.send("cockpit", "cranking", { engine: 3 });
    story.send("cockpit", "startAbandoned", { engine: 3 });
    story.say("groundPower", { type: "countBlades", engine: 3, blades: 9, resistance: false });
    return story;
  },
  tooLate: () => after(given().manned(), (s) => s.does(ada, { type: "present" }, s.now - 1)),
  sessionOver: () => {
    const story = given().manned();
    story.say("cockpit", { type: "abandon", reason: "weather" });
    story.send("cockpit", "hold");
    return story;
  },
  oilLost: () =>
    after(given().upTo("starting").running(3), (s) => {
      s.oil(3, 10);
      s.send("cockpit", "started", { engine: 3 });
    }),
  alreadyDone: () => after(given().manned(), (s) => s.say("cockpit", { type: "claimPost", post: "cockpit" })),
};

function after(story: Story, then: (story: Story) => unknown): Story {
  then(story);
  return story;
}

const reasons = REFUSAL_REASONS.filter((r) => r !== "idReused" && r !== "clearanceVoid");

describe("refusals", () => {
  it.each(reasons)(
    "[REF-1, REF-2] %s: refused, recorded with its action, and nothing else changes",
    (reason) => {
      const story = WAYS[reason]();
      expect(story.refused).toBe(reason);
      const recorded = story.facts.filter((f) => f.type === "refused");
      if (reason === "sessionOver") expect(story.facts).toEqual([]);
      else expect(recorded).toMatchObject([{ refusal: { reason } }]);
      // A wrong read-back is the one refusal that also ends something and records it.
      const others = story.facts.filter((f) => f.type !== "refused").map((f) => f.type);
      expect(others).toEqual(reason === "readBackWrong" ? ["answered", "clearanceVoid", "alertRaised"] : []);
    },
  );

  it.each(REFUSAL_REASONS)("[REF-1] %s has words", (reason) => {
    expect(refusals[reason].length).toBeGreaterThan(8);
  });

  it("[REF-2, PRS-1] a refusal changes only the event number, the time and the touch", () => {
    const story = given().upTo("starting");
    const { posts, ...before } = story.state;
    story.wait(1).send("cockpit", "caught", { engine: 3 });
    const { posts: touched, ...after } = story.state;
    expect({ ...after, seq: 0, at: 0 }).toEqual({ ...before, seq: 0, at: 0 });
    expect(touched).toEqual({ ...posts, cockpit: { ...posts.cockpit, touchedAt: story.now } });
  });

  it("[REF-4] a command acts at its validUntil, and is too late one millisecond later", () => {
    const story = given().manned();
    expect(story.does(ada, { type: "present" }, story.now).refusal).toBeUndefined();
    expect(story.does(ada, { type: "present" }, story.now - 1).refusal?.reason).toBe("tooLate");
  });

  it.each(["hold", "cut", "cutAll", "fire", "turning"] as const)(
    "[REF-4, HLD-1, CUT-1, FIR-1, TRN-1] %s is never too late",
    (kind) => {
      const story = given().manned();
      expect(story.does(ed, { type: "send", kind }, story.now - 3_600_000).refusal).toBeUndefined();
    },
  );

  it("[PST-11] on another device the holder of a post is an observer", () => {
    const story = given().upTo("starting");
    const elsewhere = onDevice(CREW.cockpit, "spare-tablet");
    expect(story.does(elsewhere, { type: "send", kind: "readyToStart", engine: 3 }).refusal?.reason).toBe(
      "wrongPost",
    );
    expect(story.does(elsewhere, { type: "send", kind: "hold" }).refusal).toBeUndefined();
  });
});
