import { describe, expect, it } from "vitest";
import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { soundingFor } from "../../web/senses/sounding.ts";
import { given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const of = (story: Story) => story.state.alerts.find((a) => a.kind === "clearanceVoid");
const asked = (story: Story, post: Post) =>
  askedOf(story.state, post, story.now).find((a) => a.say === "alert.clearanceVoid");
const seen = (story: Story, post: Post) =>
  story.say(post, { type: "acknowledgeAlert", alert: of(story)?.id ?? 0 }).refusal?.reason;

/** Every way in which a clearance of engine 3 ends without use, with the words of its reason. */
const ENDS: readonly [string, (story: Story) => unknown, string, string][] = [
  ["expired", (s) => s.wait(30), "its time ran out", "se venció su tiempo"],
  [
    "epoch",
    (s) => s.send("groundPower", "hold"),
    "there was a stop, a change of post or a restart",
    "hubo un paro, un cambio de puesto o un reinicio",
  ],
  [
    "condition",
    (s) => s.send("fireGuard", "arcNotClear", { engine: 3 }),
    "arc reported not clear",
    "arco reportado no despejado",
  ],
  [
    "revoked",
    (s) => s.send("fireGuard", "revokeClearance", { engine: 3 }),
    "it was taken back",
    "fue retirada",
  ],
  [
    "readBackWrong",
    (s) => s.answer("cockpit", s.openSignal("clearToStart"), "readBack", 4),
    "it was read back wrong",
    "se colacionó mal",
  ],
];

describe("a clearance that ends without use", () => {
  it.each(ENDS)("[CLR-15] %s: cockpit and supervisor are told why", (cause, end, en, es) => {
    const story = starting();
    story.cleared(3);
    end(story);
    expect(story.told("clearanceVoid").map((f) => f.cause)).toEqual([cause]);
    for (const post of ["cockpit", "supervisor"] as const) {
      const told = asked(story, post);
      expect(told && english.ask(told)).toContain(`clearance of number 3 has ended: ${en}.`);
      expect(told && spanish.ask(told)).toContain(`autorización del motor 3 terminó: ${es}`);
      expect(soundingFor(story.state, post, story.now).map((s) => s.tone)).toContain("warning");
    }
    expect(asked(story, "fireGuard")).toBeUndefined();
    expect(story.replayed()).toEqual(story.state);
  });

  it("[CLR-15] each acknowledges it once, and then it is gone", () => {
    const story = starting();
    story.cleared(3);
    story.wait(30);
    expect(seen(story, "cockpit")).toBeUndefined();
    expect(asked(story, "cockpit")).toBeUndefined();
    expect(asked(story, "supervisor")).toBeDefined();
    expect(seen(story, "supervisor")).toBeUndefined();
    expect(of(story)).toBeUndefined();
    expect(story.state.voided).toBeUndefined();
    story.wait(60);
    expect(story.raised("clearanceVoid")).toHaveLength(1);
  });

  it("[CLR-15] a new clearance of that engine ends it for everybody", () => {
    const story = starting();
    story.cleared(3);
    story.wait(30);
    expect(asked(story, "supervisor")).toBeDefined();
    story.cleared(3);
    story.wait(0);
    for (const post of ["cockpit", "supervisor"] as const) expect(asked(story, post)).toBeUndefined();
    expect(of(story)).toBeUndefined();
  });

  it("[CLR-15] the post that takes it back or declines it is not told", () => {
    const back = starting();
    back.cleared(3);
    back.send("supervisor", "revokeClearance", { engine: 3 });
    expect([asked(back, "cockpit") !== undefined, asked(back, "supervisor")]).toEqual([true, undefined]);
    const declined = starting();
    const clearance = declined.cleared(3);
    declined.answer("cockpit", clearance, "unable");
    expect([asked(declined, "cockpit"), asked(declined, "supervisor") !== undefined]).toEqual([
      undefined,
      true,
    ]);
  });

  it("[CLR-15, ALR-4] nobody is told of the end of a clearance that was used", () => {
    const story = starting().started(3);
    expect(story.alerts).toEqual([]);
  });
});

describe("a report about to grow old", () => {
  const supervisors = (story: Story) =>
    askedOf(story.state, "supervisor", story.now).find((a) => a.engine === 3 && a.weight === 2);
  const words = (story: Story, post: Post) => askedOf(story.state, post, story.now).map((a) => a.say);

  it("[CLR-16] volts that would be old within the clearance are read again before it is offered", () => {
    const story = starting();
    // Volts are fresh for 900 s and a clearance lives 30 s.
    story.wait(860);
    story.brakes();
    story.requested(3).guarded(3);
    expect(supervisors(story)?.say).toBe("clearToStart");
    story.wait(11);
    expect(supervisors(story)).toMatchObject({
      say: "clearRenews",
      detail: { is: "unmet", conditions: ["groundPowerKnown"] },
    });
    expect(supervisors(story)?.choices.map((c) => c.word)).toEqual(["unable"]);
    const volts = askedOf(story.state, "groundPower", story.now)[0];
    expect(volts).toMatchObject({ say: "volts", weight: 2 });
    const action = volts?.choices[0] && fill(volts.choices[0], { figure: { value: 28, unit: "V" } });
    if (action) story.say("groundPower", action);
    expect(supervisors(story)?.say).toBe("clearToStart");
    expect(words(story, "groundPower")).not.toContain("volts");
    story.send("supervisor", "clearToStart", { engine: 3 });
    story.waitMs(29_999);
    expect(story.life(3)).toBe("clear");
  });

  it("[CLR-16] guard, arc and brakes are asked again of their owners", () => {
    const story = starting();
    story.wait(500);
    story.requested(3).guarded(3);
    expect(words(story, "cockpit")).not.toContain("brakesSet");
    story.wait(72);
    expect(words(story, "cockpit")).toContain("brakesSet");
    story.brakes();
    expect(words(story, "fireGuard")).toContain("guardStill");
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    expect(words(story, "fireGuard")).toContain("arcClear");
    story.send("fireGuard", "arcClear", { engine: 3 });
    expect(supervisors(story)?.say).toBe("clearToStart");
  });

  it("[CLR-16] nothing is asked again while no engine is requested", () => {
    const story = starting();
    story.wait(580);
    expect(words(story, "cockpit")).not.toContain("brakesSet");
    expect(words(story, "groundPower")).toEqual([]);
  });

  it("[CLR-16] reports that live no longer than a clearance are asked again at half their time, where the type gives no share", () => {
    const { type } = starting().state;
    const short = { ...type, timing: { ...type.timing, arcClear: { ...type.timing.arcClear, value: 20 } } };
    const story = given({ type: short }).upTo("starting").requested(3).guarded(3);
    story.waitMs(10_000);
    expect(supervisors(story)?.say).toBe("clearToStart");
    story.waitMs(1);
    expect(supervisors(story)?.say).toBe("clearRenews");
  });

  it("[CLR-16] the share of their time is a figure of the type", () => {
    const { type } = starting().state;
    const arcClear = { ...type.timing.arcClear, value: 20 };
    const source = { basis: "invented", text: "for tests" } as const;
    const short = { ...type, timing: { ...type.timing, arcClear }, renewedIn: { value: 0.25, source } };
    const story = given({ type: short }).upTo("starting").requested(3).guarded(3);
    story.waitMs(15_000);
    expect(supervisors(story)?.say).toBe("clearToStart");
    story.waitMs(1);
    expect(supervisors(story)?.say).toBe("clearRenews");
  });
});
