import { describe, expect, it } from "vitest";
import { drill, LENIENT } from "../safety/types.ts";
import { FOUR } from "./aircraft.ts";
import { ada, bo, CREW, di, ed, fay, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const seq = (story: Story) => story.last.events[0]?.seq ?? 0;
const held = (story: Story) => {
  story.send("fireGuard", "hold");
  return seq(story);
};

/** The action, and its whole answer: the reason, what was found, the posts that could do it. */
const REFUSALS: [string, string, () => Story, Record<string, unknown>][] = [
  [
    "STG-2",
    "a stage left out",
    () => after(given().manned(), (s) => s.say("supervisor", { type: "advance", to: "secure" })),
    { reason: "wrongStage", found: "plan", stages: ["brief"] },
  ],
  [
    "STG-14",
    "anything after the end",
    () => {
      const story = given().manned();
      story.say("supervisor", { type: "abandon", reason: "weather" });
      story.send("cockpit", "hold");
      return story;
    },
    { reason: "sessionOver", found: "abandoned" },
  ],
  [
    "PST-4",
    "a post offered to oneself",
    () => after(given().manned(), (s) => s.say("cockpit", { type: "offerPost", post: "cockpit", to: "ada" })),
    { reason: "secondPersonNeeded", found: "Ada" },
  ],
  [
    "PST-1",
    "what only some posts do",
    () => after(starting(), (s) => s.send("fireGuard", "readyToStart", { engine: 3 })),
    { reason: "wrongPost", posts: ["cockpit"] },
  ],
  [
    "PST-11",
    "an observer's present",
    () => after(starting(), (s) => s.does(ed, { type: "present" })),
    { reason: "wrongPost", posts: ["cockpit", "fireGuard", "groundPower", "supervisor"] },
  ],
  [
    "HLD-3",
    "another's hold released",
    () => {
      const story = starting();
      story.send("cockpit", "release", { ref: held(story), note: "safe" });
      return story;
    },
    { reason: "notYourHold", found: "Bo" },
  ],
  [
    "CUT-5",
    "a cut reset that nobody reported done",
    () => {
      const story = starting();
      story.send("fireGuard", "cut", { engine: 3 });
      story.send("supervisor", "resetCut", { ref: seq(story) });
      return story;
    },
    { reason: "wrongEngineState", found: "notReportedDone", posts: ["cockpit"] },
  ],
  [
    "FIR-5",
    "a fire out on one person's word",
    () => {
      const story = starting();
      story.send("cockpit", "fire", { engine: 3 });
      const ref = seq(story);
      story.send("fireGuard", "fireOut", { ref });
      story.send("fireGuard", "fireOut", { ref });
      return story;
    },
    { reason: "secondPersonNeeded", found: "Bo", posts: ["fireGuard", "supervisor", "cockpit"] },
  ],
  [
    "CHK-5",
    "an engine's gauge read by ground power",
    () =>
      after(starting(), (s) =>
        s.say("groundPower", {
          type: "reading",
          gauge: "oilPressure",
          engine: 3,
          reading: { value: 5, unit: "psi" },
        }),
      ),
    { reason: "wrongPost", posts: ["cockpit"] },
  ],
  [
    "CHK-5",
    "a reading off the scale",
    () => after(starting(), (s) => s.reading("oilPressure", 3, 201, "psi")),
    { reason: "outOfRange", found: "0 to 200 psi" },
  ],
  [
    "CHK-6",
    "a check of another post",
    () => after(starting(), (s) => s.say("cockpit", { type: "recordCheck", check: "bottles", good: true })),
    { reason: "wrongPost", posts: ["fireGuard"] },
  ],
  [
    "PWR-2",
    "the crew that will comply",
    () => {
      const story = starting();
      story.powerOff();
      story.send("groundPower", "connectPower");
      story.answer("cockpit", seq(story), "willComply");
      return story;
    },
    { reason: "answerNotAllowed", found: "authorise, received, unable" },
  ],
  [
    "CLR-5",
    "cranking once more on a clearance that is used",
    () => {
      const story = starting();
      const clearance = story.cranking(3);
      story.send("cockpit", "cranking", { engine: 3, ref: clearance });
      return story;
    },
    { reason: "clearanceUsed", engine: 3 },
  ],
  [
    "OIL-7",
    "an engine called stable whose oil pressure is gone",
    () => {
      const story = starting().running(3);
      story.oil(3, 10);
      story.send("cockpit", "started", { engine: 3 });
      return story;
    },
    { reason: "oilLost", engine: 3, found: "40 psi" },
  ],
  [
    "HND-4",
    "blades counted with no leave",
    () =>
      after(starting(), (s) =>
        s.say("fireGuard", { type: "countBlades", engine: 3, blades: 9, resistance: false }),
      ),
    { reason: "noAuthority", posts: ["cockpit"], found: "handlePropeller", engine: 3 },
  ],
  [
    "ALR-7",
    "a shelf of sixteen minutes",
    () => {
      const story = starting();
      story.volts(20);
      const alert = story.state.alerts.find((a) => a.kind === "groundPowerOutOfRange")?.id ?? 0;
      story.say("cockpit", { type: "shelveAlert", alert, minutes: 16 });
      return story;
    },
    { reason: "outOfRange", found: "1 to 15 min" },
  ],
  [
    "SIG-11",
    "a hand signal of a post that does not send it",
    () =>
      after(starting(), (s) =>
        s.send("groundPower", "readyToStart", { engine: 3, channel: "hand", seenFrom: "fireGuard" }),
      ),
    { reason: "notWitnessable", posts: ["cockpit"] },
  ],
  [
    "OVR-2",
    "a condition set aside a third time",
    () => {
      const story = given({ type: LENIENT }).upTo("starting");
      for (const who of [ada, di, ada])
        story.does(who, { type: "override", condition: "brakesSet", engine: 3, reason: "known" });
      return story;
    },
    { reason: "alreadyDone" },
  ],
  [
    "OVR-2",
    "a condition set aside twice by one person",
    () => {
      const story = given({ type: LENIENT }).upTo("starting");
      const again = { type: "override", condition: "brakesSet", engine: 3, reason: "known" } as const;
      story.does(ada, again);
      story.does(ada, again);
      return story;
    },
    { reason: "secondPersonNeeded", found: "Ada", posts: ["cockpit", "supervisor"] },
  ],
  [
    "DRL-1",
    "a drill the type does not have",
    () => after(starting(), (s) => s.say("cockpit", { type: "startDrill", drill: "no-such-drill" })),
    { reason: "noSuchDrill", found: "" },
  ],
  [
    "STG-15",
    "an order amended from the brief on with no reason",
    () => after(starting(), (s) => s.say("cockpit", { type: "amendPlan", order: [3, 4] })),
    { reason: "missingFigure", found: "reason" },
  ],
  [
    "DRL-3",
    "a step that the card does not have",
    () => {
      const story = given({ type: { ...FOUR, drills: [drill("one", "manual")] } }).upTo("starting");
      story.say("cockpit", { type: "startDrill", drill: "one" });
      story.say("cockpit", { type: "drillStep", run: story.state.drills[0]?.id ?? 0, step: 2, done: true });
      return story;
    },
    { reason: "noSuchDrill", found: "2" },
  ],
  [
    "STG-4",
    "an all clear under a stop",
    () => {
      const story = given({ order: [3] }).upTo("warmUp");
      story.send("fireGuard", "hold");
      story.send("supervisor", "allClear");
      return story;
    },
    { reason: "stopOpen" },
  ],
];

function after(story: Story, act: (story: Story) => unknown): Story {
  act(story);
  return story;
}

describe("a refusal says all of it", () => {
  it.each(REFUSALS)("[REF-1, %s] %s", (_rule, _what, way, refusal) => {
    expect(way().last.refusal).toEqual(refusal);
  });

  it("[PST-8] only a person qualified for it vacates the supervisor's post", () => {
    const story = given().manned();
    story.does(bo, { type: "vacatePost", post: "supervisor", reason: "gone" });
    expect(story.last.refusal).toEqual({ reason: "wrongPost", posts: ["supervisor"] });
    story.does(fay, { type: "vacatePost", post: "supervisor", reason: "gone" });
    expect(story.last.refusal).toBeUndefined();
    expect(CREW.supervisor.id).toBe("di");
  });
});
