import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { starterCool } from "../../shared/conditions/engines.ts";
import { bladesCounted } from "../../shared/conditions/propellers.ts";
import { plain } from "../../shared/engine/life.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { RICH } from "../figures/rich.ts";
import { FOUR } from "./aircraft.ts";
import { given, START, type Story } from "./given.ts";

const source = { basis: "invented", text: "for tests" } as const;
const s = (value: number) => ({ value, unit: "s" as const, source });
const psi = (value: number) => ({ value, unit: "psi" as const, source });

describe("starter ladder by the air's temperature", () => {
  const limitMs = (story: Story, n: number) => {
    const life = plain(story.state.engines[n - 1]?.life ?? { is: "waiting" });
    return life.is === "cranking" ? life.limitAt - life.since : null;
  };
  const cranked = (temperatureC: number | null) => {
    const story = given({ type: RICH }).manned().upTo("starting");
    if (temperatureC !== null) story.air(temperatureC);
    story.cranking(3);
    return story;
  };

  it.each([
    [0.1, 40],
    [0, 20],
    [-20, 20],
    [null, 20],
  ])("[STR-7] at %s degC the engagement may last %i s", (temperatureC, seconds) => {
    expect(limitMs(cranked(temperatureC), 3)).toBe(seconds * 1000);
  });

  it("[STR-7] the longest rest of all bands holds until the temperature is read, then the band's own", () => {
    const story = cranked(null);
    story.wait(5).send("cockpit", "startAbandoned", { engine: 3 });
    expect(starterCool.find(story.state, 3, story.now + 119_999).is).toBe("no");
    expect(starterCool.find(story.state, 3, story.now + 120_000).is).toBe("yes");
    story.air(15);
    expect(starterCool.find(story.state, 3, story.now + 59_999).is).toBe("no");
    expect(starterCool.find(story.state, 3, story.now + 60_000).is).toBe("yes");
  });
});

describe("oil limits by the air's temperature", () => {
  // 30 s in summer, 60 s in winter: AC 61-21. The change at 4 degC is the test's own.
  const type: AircraftType = {
    ...FOUR,
    oil: {
      firstIndication: { atLeast: psi(5), within: s(30) },
      normal: { atLeast: psi(40), within: s(45) },
      colder: [
        {
          upTo: { value: 4, unit: "degC", source },
          firstIndication: { atLeast: psi(5), within: s(60) },
          normal: { atLeast: psi(50), within: s(75) },
        },
      ],
    },
  };
  const caught = (temperatureC: number | null) => {
    const story = given({ type }).manned().upTo("starting");
    if (temperatureC !== null) story.air(temperatureC);
    return story.caught(3);
  };

  it("[OIL-5] 40 s without a sign is late in summer and in time in winter", () => {
    const summer = caught(15).wait(40);
    expect(summer.alerts).toEqual(["oilFirstLate"]);
    const winter = caught(4).wait(40);
    expect(winter.alerts).toEqual([]);
    winter.oil(3, 5);
    expect(winter.wait(21).alerts).toEqual([]);
  });

  it("[OIL-5] the shortest time and the highest pressure of all bands hold until the temperature is read", () => {
    const story = caught(null).wait(31);
    expect(story.alerts).toEqual(["oilFirstLate"]);
    story.oil(3, 49);
    expect(story.life(3)).toBe("caught");
    story.oil(3, 50);
    expect(story.life(3)).toBe("running");
  });
});

describe("preheat", () => {
  const missing = (story: Story) =>
    story.say("supervisor", { type: "advance", to: "starting" }).refusal?.missing ?? [];
  const asked = (story: Story) =>
    askedOf(story.state, "cockpit", story.now).some((a) => a.key === "check:preheat");

  it("[OIL-6] is asked for and needed only if the recorded air requires it", () => {
    const story = given({ type: RICH }).manned().upTo("groundPower");
    expect([missing(story).includes("check:preheat"), asked(story)]).toEqual([false, false]);
    story.air(-20);
    expect([missing(story).includes("check:preheat"), asked(story)]).toEqual([true, true]);
    story.say("cockpit", { type: "recordCheck", check: "preheat", good: true });
    expect([missing(story).includes("check:preheat"), asked(story)]).toEqual([false, false]);
  });

  it("[OIL-6] is still asked for when that is found while starting, and stops nothing", () => {
    const story = given({ type: RICH }).manned().upTo("starting");
    story.air(-20);
    expect(asked(story)).toBe(true);
    story.cranking(3);
    expect(story.life(3)).toBe("cranking");
  });
});

describe("blades by rule", () => {
  // First lines of an engine maker's 1946 instruction, second-hand: 6 blades within the hour, 14 from then on.
  const maker: AircraftType = {
    ...RICH,
    conditions: [...RICH.conditions, "bladesCounted"],
    bladeCount: {
      method: "starter",
      holds: s(1200),
      cases: [
        { idle: "always", turn: { blades: 6 }, source },
        { idle: { from: { value: 1, unit: "h", source } }, turn: { blades: 14 }, source },
      ],
    },
  };
  const ran = (minutesAgo: number) =>
    given({ type: maker, more: { lastRan: [1, 2, 3, 4].map(() => START - minutesAgo * 60_000) } })
      .manned()
      .upTo("secure");
  const count = (story: Story, blades: number) => {
    story.send("groundPower", "handlePropeller", { engine: 1 });
    story.answer("cockpit", story.openSignal("handlePropeller"), "authorise");
    story.say("groundPower", { type: "countBlades", engine: 1, blades, resistance: false });
    return bladesCounted.find(story.state, 1, story.now);
  };

  it("[MCN-1] asks for 6 blades after 59 minutes and for 14 after 60", () => {
    expect(count(ran(59), 6).is).toBe("yes");
    expect(count(ran(60), 6)).toMatchObject({ is: "no", found: "6 of 14" });
    expect(count(ran(60), 14).is).toBe("yes");
  });

  it("[MCN-1] makes a count too small again when the rule asks for more, and stale when it is old", () => {
    const story = ran(50);
    const found = count(story, 6);
    expect(found.until).toBe(START + 600_000);
    expect(bladesCounted.find(story.state, 1, START + 599_999).is).toBe("yes");
    expect(bladesCounted.find(story.state, 1, START + 600_000).is).toBe("no");
    const enough = ran(50);
    expect(count(enough, 14).until).toBe(enough.now + 1_200_000);
    expect(bladesCounted.find(enough.state, 1, enough.now + 1_200_000).is).toBe("stale");
  });

  it("[MCN-1] asks the person who counts for the rule's number", () => {
    const story = ran(59);
    story.send("groundPower", "handlePropeller", { engine: 1 });
    story.answer("cockpit", story.openSignal("handlePropeller"), "authorise");
    const ask = askedOf(story.state, "groundPower", story.now).find((a) => a.say === "countBlades");
    expect(ask?.choices[0]?.need).toEqual({ is: "blades", atLeast: 6 });
  });
});
