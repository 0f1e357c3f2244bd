import { describe, expect, it } from "vitest";
import { type Choice, fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Story } from "./given.ts";

const step = (words: string, more = {}) => ({ words, withinS: null, ...more });
const DRILLED: AircraftType = {
  ...FOUR,
  drills: [
    {
      id: "oilLow",
      title: "No oil pressure",
      triggers: ["alert:oilFirstLate"],
      cards: {
        cockpit: [],
        fireGuard: [step("Look for oil under it", { atStandstill: true })],
        groundPower: [],
        supervisor: [step("Write it up", { writesDefect: true })],
      },
      source: FOUR.orderSource,
    },
  ],
};
const starting = (type = FOUR) => given({ type }).upTo("starting");
const asks = (story: Story, post: Post) => askedOf(story.state, post, story.now);
const first = (story: Story, post: Post) => asks(story, post)[0];
const words = (choices: readonly Choice[] = [], engine: number | null = null) =>
  choices.map((c) => say.choice(c.word, engine));
const drill = (story: Story, post: Post) => asks(story, post).find((a) => a.say === "drill");

describe("what must be done now", () => {
  it("[ALR-12] without oil pressure the cockpit may shut down this engine or read the pressure, and nothing else", () => {
    const story = starting().caught(3).wait(6);
    const asked = first(story, "cockpit");
    expect(asked).toMatchObject({ say: "alert.oilFirstLate", weight: 0 });
    expect(words(asked?.choices, 3)).toEqual(["Shut down 3", "Pressure is up"]);
    const alert = story.state.alerts[0]?.id ?? 0;
    story.say("cockpit", { type: "shelveAlert", alert, minutes: 5 });
    expect(story.refused).toBe("notShelvable");
  });

  it("[ALR-12] a reading of the pressure, or a shut-down, is the cockpit's acknowledgement", () => {
    for (const act of ["read", "shutDown"] as const) {
      const story = starting().caught(3).wait(6);
      if (act === "read") story.oil(3, 60);
      else story.send("cockpit", "shutDown", { engine: 3 });
      expect(asks(story, "cockpit").map((a) => a.say)).not.toContain("alertOver.oilFirstLate");
      // Everybody else sees that the alert was there and is over.
      expect(first(story, "supervisor")).toMatchObject({ say: "alertOver.oilFirstLate", weight: 1 });
    }
  });

  it("[ALR-12] a starter past its limit is reported released, with or without a catch", () => {
    const story = starting();
    story.cranking(3);
    story.wait(41);
    const asked = first(story, "cockpit");
    expect(asked).toMatchObject({ say: "alert.starterLimit", weight: 0 });
    expect(words(asked?.choices, 3)).toEqual(["Released: no catch", "Released: it caught"]);
    const [released] = asked?.choices ?? [];
    const action = released && fill(released, {});
    if (action) story.say("cockpit", action);
    expect(asks(story, "cockpit").filter((a) => a.say.startsWith("alert"))).toEqual([]);
  });

  it("[ALR-7] an alert that can wait may be shelved", () => {
    const story = starting();
    story.volts(20);
    const asked = asks(story, "cockpit").find((a) => a.say === "alert.groundPowerOutOfRange");
    expect(words(asked?.choices)).toEqual(["Seen", "Put aside 5 min"]);
  });
});

describe("an engine shut down without oil pressure", () => {
  const shut = (type = FOUR) => {
    const story = starting(type).caught(3).wait(6);
    story.send("cockpit", "shutDown", { engine: 3 });
    story.wait(60);
    return story;
  };
  const next = (story: Story) => asks(story, "cockpit").find((a) => a.say === "oilUnknown");

  it("[ENG-8] is not asked for again while the alert stands, and then only with the reason", () => {
    const story = shut();
    expect(next(story)?.choices).toEqual([]);
    const alert = story.state.alerts[0]?.id ?? 0;
    story.say("supervisor", { type: "acknowledgeAlert", alert });
    const [again] = next(story)?.choices ?? [];
    expect(again?.need).toEqual({ is: "reason" });
    expect(again && fill(again, {})).toBeNull();
    expect(asks(story, "cockpit").map((a) => a.say)).not.toContain("readyToStart");
  });

  it("[ENG-8] is not asked for again while its drill is open", () => {
    const story = shut(DRILLED);
    story.say("supervisor", { type: "acknowledgeAlert", alert: story.state.alerts[0]?.id ?? 0 });
    const offered = asks(story, "cockpit").flatMap((a) => a.choices.map((c) => c.word));
    expect(offered).not.toContain("readyToStart");
    story.say("supervisor", { type: "endDrill", run: story.state.drills[0]?.id ?? 0, outcome: "found" });
    expect(next(story)?.choices).toHaveLength(1);
  });

  it("[ENG-8] is asked for as any other if its pressure had come before the shut-down", () => {
    const story = starting().caught(3).wait(12);
    story.oil(3, 60);
    story.send("cockpit", "shutDown", { engine: 3 });
    story.wait(60);
    expect(asks(story, "cockpit").map((a) => a.say)).toContain("readyToStart");
  });
});

describe("steps of a drill", () => {
  it("[DRL-8] nobody is asked to look under an engine that turns", () => {
    const story = starting(DRILLED).caught(3).wait(6);
    expect(story.state.drills).toHaveLength(1);
    expect(drill(story, "fireGuard")).toBeUndefined();
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(drill(story, "fireGuard")?.detail).toEqual({ is: "ofType", words: "Look for oil under it" });
  });

  it("[DRL-8] a defect is done once it is written, and bars that engine's start", () => {
    const story = starting(DRILLED).caught(3).wait(6);
    const run = story.state.drills[0]?.id ?? 0;
    story.say("supervisor", { type: "drillStep", run, step: 0, done: true });
    expect(story.last.refusal).toMatchObject({ reason: "missingFigure", found: "defect" });
    const [write] = drill(story, "supervisor")?.choices ?? [];
    expect(write?.word).toBe("writeDefect");
    expect(write && fill(write, {})).toBeNull();
    const action = write && fill(write, { reason: "no oil pressure" });
    if (action) story.say("supervisor", action);
    expect(story.state.defects).toMatchObject([{ words: "no oil pressure", engine: 3, barsStart: true }]);
    const [done] = drill(story, "supervisor")?.choices ?? [];
    expect(done?.word).toBe("stepDone");
    story.say("supervisor", { type: "drillStep", run, step: 0, done: true });
    expect(story.refused).toBeNull();
  });

  it("[DRL-8] the supervisor is asked to close what bars the next engine, with what was found", () => {
    const conditions = [...FOUR.conditions, "noBarringDefect"] as const;
    const story = starting({ ...FOUR, conditions: [...conditions] });
    story.say("cockpit", { type: "writeDefect", words: "loose cowl", engine: 3, barsStart: true });
    const asked = asks(story, "supervisor").find((a) => a.say === "barringDefect");
    expect(asked && say.ask(asked)).toBe(
      "A defect blocks the start of number 3: loose cowl. Is it dealt with?",
    );
    const [close] = asked?.choices ?? [];
    expect(close && fill(close, {})).toBeNull();
    const action = close && fill(close, { reason: "fastened" });
    if (action) story.say("supervisor", action);
    expect(story.state.defects).toEqual([]);
    expect(asks(story, "cockpit").map((a) => a.say)).toContain("readyToStart");
  });
});
