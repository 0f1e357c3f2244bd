import { describe, expect, it } from "vitest";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import { ed, given, type Story } from "./given.ts";

const at = (stage: "groundPower" | "starting" | "release") => given({ order: [3] }).upTo(stage);
const refusal = (story: Story) => story.last.refusal?.reason;

describe("ground power", () => {
  it("[PWR-1] is connected and disconnected only with the crew's leave", () => {
    const story = at("groundPower");
    expect(story.volts(28).refusal).toEqual({
      reason: "noAuthority",
      posts: ["cockpit"],
      found: "connectPower",
    });
    const on = at("starting");
    on.send("groundPower", "powerDisconnected");
    expect(on.state.groundPower).toMatchObject({ is: "off", lost: true });
  });

  it("[PWR-2] has the cockpit's leave by the cockpit's own request", () => {
    const story = at("groundPower");
    story.send("cockpit", "connectPower");
    expect(story.volts(28).refusal).toBeUndefined();
    expect(story.state.groundPower).toMatchObject({ is: "on", volts: { value: 28, unit: "V" } });
  });

  it.each(["groundPower", "supervisor"] as const)(
    "[PWR-2] needs the cockpit's authorisation when %s asks",
    (post) => {
      const story = at("groundPower");
      story.send(post, "connectPower");
      const asked = story.openSignal("connectPower");
      expect(story.volts(28).refusal?.reason).toBe("noAuthority");
      expect(story.answer("cockpit", asked, "willComply").refusal?.reason).toBe("answerNotAllowed");
      story.answer("cockpit", asked, "received");
      expect(story.volts(28).refusal?.reason).toBe("noAuthority");
      story.answer("cockpit", asked, "authorise");
      expect(story.volts(28).refusal).toBeUndefined();
    },
  );

  it("[PWR-2] ground power cannot authorise itself", () => {
    const story = at("groundPower");
    story.send("cockpit", "connectPower");
    const signal = story.openSignal("connectPower");
    expect(story.answer("groundPower", signal, "authorise").refusal?.reason).toBe("answerNotAllowed");
    expect(story.answer("groundPower", signal, "willComply").refusal).toBeUndefined();
  });

  it("[PWR-3] uses a leave once", () => {
    const story = at("starting");
    story.powerOff();
    story.power();
    story.send("groundPower", "powerDisconnected");
    expect(story.state.groundPower).toMatchObject({ is: "off", lost: true });
  });

  const ends: [string, (s: Story) => unknown][] = [
    [
      "a hold, though released",
      (s) =>
        s.does(ed, {
          type: "send",
          kind: "release",
          ref: s.does(ed, { type: "send", kind: "hold" }).events[0]?.seq ?? 0,
        }),
    ],
    ["a change of post", (s) => s.say("fireGuard", { type: "leavePost", post: "fireGuard" })],
    ["a restart", (s) => s.restart()],
    ["a step of the clock", (s) => s.clockStep(5)],
    ["an amended plan", (s) => s.say("cockpit", { type: "amendPlan", order: [3], reason: "x" })],
  ];
  it.each(ends)("[PWR-3, TIM-3] loses its leave with %s", (_, happens) => {
    const story = at("groundPower");
    story.send("cockpit", "connectPower");
    happens(story);
    expect(story.volts(28).refusal?.reason).toBe("noAuthority");
  });

  it("[PWR-4] is reported on only with its volts, in volts, not below zero", () => {
    const story = at("groundPower");
    story.send("cockpit", "connectPower");
    story.send("groundPower", "powerConnected");
    expect(refusal(story)).toBe("missingFigure");
    story.send("groundPower", "powerConnected", { volts: { value: 28, unit: "psi" } });
    expect(refusal(story)).toBe("wrongUnit");
    story.volts(-1);
    expect(refusal(story)).toBe("outOfRange");
    story.volts(28);
    expect(refusal(story)).toBeUndefined();
  });

  it("[PWR-5] while on, volts are refreshed without leave", () => {
    const story = at("starting").wait(60);
    expect(story.volts(27.5).refusal).toBeUndefined();
    expect(story.state.groundPower).toMatchObject({
      is: "on",
      volts: { value: 27.5 },
      by: { at: story.now },
    });
  });

  it.each([
    [25.9, 1],
    [26, 0],
    [29, 0],
    [29.1, 1],
  ])("[PWR-6] %d V raises %i alerts", (volts, alerts) => {
    const story = at("starting");
    story.volts(volts);
    expect(story.told("alertRaised").filter((f) => f.kind === "groundPowerOutOfRange")).toHaveLength(alerts);
  });

  it("[PWR-6, ALR-1] the alert is raised once, and ends when volts are back or power is off", () => {
    const story = at("starting");
    story.volts(25);
    story.volts(24);
    expect(story.told("alertRaised")).toMatchObject([{ to: ["cockpit", "groundPower"] }]);
    story.volts(27);
    expect(story.told("alertEnded")).toHaveLength(1);
    story.volts(25);
    story.powerOff();
    expect(story.told("alertEnded")).toHaveLength(2);
  });

  const services: [SignalKind, "groundPower" | "starting" | "release"][] = [
    ["connectPower", "groundPower"],
    ["disconnectPower", "starting"],
    ["insertChocks", "starting"],
    ["removeChocks", "release"],
  ];
  it.each(services)(
    "[PWR-7] is not served while a stop stands: %s is neither asked for nor authorised",
    (kind, stage) => {
      const story = at(stage);
      story.brakes();
      if (kind !== "insertChocks") {
        story.send("groundPower", kind);
        const asked = story.openSignal(kind);
        const hold = story.does(ed, { type: "send", kind: "hold" }).events[0]?.seq ?? 0;
        expect(story.answer("cockpit", asked, "authorise").refusal?.reason).toBe("stopOpen");
        story.does(ed, { type: "send", kind: "release", ref: hold });
        expect(story.answer("cockpit", asked, "authorise").refusal).toBeUndefined();
      }
      story.does(ed, { type: "send", kind: "hold" });
      expect(story.send("cockpit", kind).refusal?.reason).toBe("stopOpen");
    },
  );

  it("[PWR-7] is not asked to be connected or disconnected when it is so already", () => {
    const story = at("starting");
    expect(story.send("cockpit", "connectPower").refusal?.reason).toBe("alreadyDone");
    expect(story.send("cockpit", "insertChocks").refusal?.reason).toBe("alreadyDone");
    story.powerOff();
    expect(story.send("cockpit", "disconnectPower").refusal?.reason).toBe("alreadyDone");
  });
});

describe("chocks and brakes", () => {
  it("[CHK-1] chocks in is taken without leave, also while a hold stands", () => {
    const story = given().upTo("secure");
    story.does(ed, { type: "send", kind: "hold" });
    expect(story.send("groundPower", "chocksIn").refusal).toBeUndefined();
    expect(story.state.chocks?.in).toBe(true);
  });

  const brakes: [string, (s: Story) => unknown, "yes" | "no"][] = [
    ["set", (s) => s.brakes(), "yes"],
    ["released", (s) => s.send("cockpit", "brakesReleased"), "no"],
    ["low", (s) => s.brakes(599), "no"],
    ["set a long time ago", (s) => s.unseen(600_000), "no"],
  ];
  it.each(brakes)("[CHK-2] chocks come out with brakes %s", (_, happens, may) => {
    for (const by of ["cockpit", "groundPower"] as const) {
      const story = at("release");
      story.brakes();
      if (by === "groundPower") story.send("groundPower", "removeChocks");
      happens(story);
      if (by === "cockpit") story.send("cockpit", "removeChocks");
      else story.answer("cockpit", story.openSignal("removeChocks"), "authorise");
      expect(refusal(story)).toBe(may === "yes" ? undefined : "conditionsUnmet");
      story.send("groundPower", "chocksOut");
      expect(refusal(story)).toBeUndefined();
      expect(story.state.chocks?.in).toBe(false);
      // Without leave it is recorded without the leave's number.
      expect(story.told("sent").at(-1)?.ref !== undefined).toBe(may === "yes");
    }
  });

  it("[CHK-3] brakes released after the leave for chocks end the leave", () => {
    const story = at("release");
    story.brakes();
    story.send("cockpit", "removeChocks");
    story.send("cockpit", "brakesReleased");
    expect(story.state.authorities.removeChocks).toBeNull();
  });

  it("[CHK-4] brakes set needs pressure in the type's unit", () => {
    const story = given().upTo("secure");
    expect(story.send("cockpit", "brakesSet").refusal).toEqual({ reason: "missingFigure", found: "psi" });
    expect(story.send("cockpit", "brakesSet", { pressure: { value: 7, unit: "bar" } }).refusal).toEqual({
      reason: "wrongUnit",
      found: "psi",
    });
    expect(story.brakes(-1).refusal?.reason).toBe("outOfRange");
    expect(story.brakes(0).refusal).toBeUndefined();
  });

  it("[CHK-7] the all clear ends with a stop, with a change of post and when chocks move", () => {
    const changes: ((s: Story) => unknown)[] = [
      (s) => s.does(ed, { type: "send", kind: "hold" }),
      (s) => s.say("fireGuard", { type: "leavePost", post: "fireGuard" }),
      (s) => s.send("groundPower", "chocksIn"),
      (s) => s.restart(),
    ];
    for (const change of changes) {
      const story = at("release");
      story.send("supervisor", "allClear");
      story.heard();
      expect(story.state.allClearAt).toBe(story.now);
      change(story);
      expect(story.state.allClearAt).toBeNull();
    }
  });

  it("[CHK-7] an all clear that was open when a hold came cannot be answered any more", () => {
    const story = at("release");
    story.send("supervisor", "allClear");
    const signal = story.openSignal("allClear");
    const hold = story.does(ed, { type: "send", kind: "hold" }).events[0]?.seq ?? 0;
    story.does(ed, { type: "send", kind: "release", ref: hold });
    expect(story.answer("cockpit", signal, "received").refusal?.reason).toBe("signalClosed");
    expect(story.state.allClearAt).toBeNull();
  });
});

describe("readings and checks", () => {
  it("[CHK-5] a reading needs the right gauge, engine, unit and scale, and comes from the cockpit", () => {
    const story = at("starting");
    const read = (over: object) => {
      const reading = { value: 50, unit: "psi" } as const;
      return story.say("cockpit", { type: "reading", gauge: "oilPressure", engine: 1, reading, ...over })
        .refusal?.reason;
    };
    expect(read({})).toBeUndefined();
    expect(read({ gauge: "boost" })).toBe("noSuchGauge");
    expect(read({ engine: undefined })).toBe("engineNeeded");
    expect(read({ engine: 5 })).toBe("noSuchEngine");
    expect(read({ reading: { value: 50, unit: "bar" } })).toBe("wrongUnit");
    for (const value of [-0.1, 200.1]) expect(read({ reading: { value, unit: "psi" } })).toBe("outOfRange");
    for (const value of [0, 200]) expect(read({ reading: { value, unit: "psi" } })).toBeUndefined();
    expect(read({ gauge: "busVolts", reading: { value: 25, unit: "V" } })).toBe("noSuchEngine");
    const oil = {
      type: "reading",
      gauge: "oilPressure",
      engine: 1,
      reading: { value: 50, unit: "psi" },
    } as const;
    expect(story.say("groundPower", oil).refusal?.reason).toBe("wrongPost");
  });

  it("[CHK-5] a reading is kept with who read it and when", () => {
    const story = at("starting");
    story.oil(1, 50);
    expect(story.state.engines[0]?.readings.oilPressure).toEqual({
      value: 50,
      unit: "psi",
      at: story.now,
      name: "Ada",
    });
    story.say("groundPower", { type: "reading", gauge: "busVolts", reading: { value: 25, unit: "V" } });
    expect(story.state.readings.busVolts).toMatchObject({ value: 25, name: "Cy" });
  });

  it.each([
    [23.9, false],
    [24, true],
    [26, true],
    [26.1, false],
  ])("[CHK-6] a check with a range is judged by its figure: %d V is %s", (value, good) => {
    const story = given().upTo("powerUp");
    // Other fields of the person's entry do not count.
    story.say("cockpit", {
      type: "recordCheck",
      check: "battery",
      reading: { value, unit: "V" },
      good: !good,
    });
    expect(story.state.checks.battery?.good).toBe(good);
  });

  it("[CHK-6] a check needs its own post, its figure and its unit", () => {
    const story = given().upTo("powerUp");
    const check = (post: "cockpit" | "supervisor", more: object) =>
      story.say(post, { type: "recordCheck", check: "battery", ...more }).refusal?.reason;
    expect(check("supervisor", { reading: { value: 25, unit: "V" } })).toBe("wrongPost");
    expect(check("cockpit", { good: true })).toBe("missingFigure");
    expect(check("cockpit", { reading: { value: 25, unit: "A" } })).toBe("wrongUnit");
    expect(story.say("supervisor", { type: "recordCheck", check: "walkRound" }).refusal?.reason).toBe(
      "missingFigure",
    );
  });
});
