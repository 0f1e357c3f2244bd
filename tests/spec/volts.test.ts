import { describe, expect, it } from "vitest";
import { type Choice, fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { groundPowerKnown } from "../../shared/conditions/power.ts";
import { RICH } from "../figures/rich.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Say, type Story } from "./given.ts";

const lowest = (story: Story) => story.state.engines[2]?.starter.at(-1)?.lowest;
const cranking = (type = RICH) => {
  const story = given({ type }).manned().upTo("starting");
  story.cranking(3);
  return story;
};

describe("volts while an engine cranks", () => {
  it("[PWR-8] are judged by the starting band, raise no alert in it, and leave the steady volts as they were", () => {
    const story = cranking();
    story.volts(12);
    expect(story.alerts).toEqual([]);
    expect(story.state.groundPower).toMatchObject({
      volts: { value: 28 },
      cranking: { volts: { value: 12 } },
    });
    story.wait(8).send("cockpit", "caught", { engine: 3 });
    expect(story.alerts).toEqual([]);
    expect(groundPowerKnown.find(story.state, 4, story.now).is).toBe("yes");
  });

  it("[PWR-6, PWR-12] below the starting band they raise the alert, which outlasts the cranking until volts are read in band", () => {
    const story = cranking();
    story.volts(11.9);
    expect(story.alerts).toEqual(["groundPowerOutOfRange"]);
    const active = () => story.state.alerts.some((a) => a.kind === "groundPowerOutOfRange" && a.active);
    const known = () => groundPowerKnown.find(story.state, 4, story.now).is;
    story.send("cockpit", "caught", { engine: 3 });
    expect([active(), known()]).toEqual([true, "unknown"]);
    story.volts(28);
    expect([active(), known()]).toEqual([false, "yes"]);
  });

  it("[PWR-8] are judged by the steady band for a type without a starting band", () => {
    const story = cranking(FOUR);
    story.volts(20);
    expect(story.alerts).toEqual(["groundPowerOutOfRange"]);
    expect(lowest(story)).toBeUndefined();
  });

  it("[PWR-9] are kept with the attempt: the lowest, whoever read it; the next attempt begins anew", () => {
    const story = cranking();
    story.volts(24);
    story.say("cockpit", { type: "reading", gauge: "busVolts", reading: { value: 22.5, unit: "V" } });
    story.volts(25);
    expect(lowest(story)).toMatchObject({ value: 22.5, from: "busVolts", name: "Ada" });
    story.wait(5).send("cockpit", "startAbandoned", { engine: 3 });
    story.wait(121);
    story.brakes();
    story.cranking(3);
    expect(lowest(story)).toBeUndefined();
  });

  it("[PWR-9] belong to no attempt when nothing cranks", () => {
    const story = given({ type: RICH }).manned().upTo("starting").started(3);
    story.say("cockpit", { type: "reading", gauge: "busVolts", reading: { value: 20, unit: "V" } });
    expect(lowest(story)).toBeUndefined();
  });

  const asked = (story: Story) =>
    askedOf(story.state, "groundPower", story.now).filter((a) => a.say === "voltsCranked");

  it("[PWR-9] are asked of ground power once in each attempt, and never while the starter is held", () => {
    const story = cranking();
    expect(asked(story)).toEqual([]);
    story.wait(5).send("cockpit", "caught", { engine: 3 });
    const [ask] = asked(story);
    expect(ask?.engine).toBe(3);
    const volts = { value: 13, unit: "V" } as const;
    story.say("groundPower", fill(ask?.choices[0] as Choice, { figure: volts }) as Say);
    expect(asked(story)).toEqual([]);
    expect(lowest(story)).toMatchObject({ value: 13, from: "groundPower", name: "Cy" });
    // 13 V would be far too low for steady volts: those stay as they were read.
    expect(story.state.groundPower).toMatchObject({ volts: { value: 28 }, cranking: { volts } });
    expect([story.alerts, groundPowerKnown.find(story.state, 4, story.now).is]).toEqual([[], "yes"]);
  });

  it("[PWR-9, PWR-12] below the starting band they raise the alert, though they are read out afterwards", () => {
    const story = cranking();
    story.wait(5).send("cockpit", "startAbandoned", { engine: 3 });
    story.send("groundPower", "powerConnected", { engine: 3, volts: { value: 11.9, unit: "V" } });
    expect(story.alerts).toEqual(["groundPowerOutOfRange"]);
    expect(groundPowerKnown.find(story.state, 3, story.now).is).toBe("unknown");
  });

  it("[PWR-9] an attempt whose volts were reported meanwhile is not asked for", () => {
    const story = cranking();
    story.volts(24);
    story.wait(5).send("cockpit", "caught", { engine: 3 });
    expect(asked(story)).toEqual([]);
  });
});
