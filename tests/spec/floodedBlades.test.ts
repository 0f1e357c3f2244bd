import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { bladesCounted } from "../../shared/conditions/propellers.ts";
import { bladesFigure } from "../../shared/figures/blades.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { seeded } from "../print/troubled.ts";
import { applying } from "../safety/types.ts";
import { given, type Story } from "./given.ts";

const source = { basis: "commonPractice", text: "for tests" } as const;
const PLAIN = applying("bladesCounted");
/** Three blades are due after a failed attempt, more than the nine of a cold engine are not. */
const ANEW: AircraftType = {
  ...PLAIN,
  bladeCount: { ...PLAIN.bladeCount, afterFailed: { turn: { blades: 12 }, source } },
};

const count = (story: Story, blades: number, resistance = false) =>
  story.say("groundPower", { type: "countBlades", engine: 3, blades, resistance });
const counted = (story: Story, blades = 12) => {
  story.send("cockpit", "handlePropeller", { engine: 3 });
  count(story, blades);
  story.send("groundPower", "propellerFree", { engine: 3 });
};
/** A session of one engine that was counted and whose first attempt then failed. */
const failed = (type: AircraftType) => {
  const story = given({ type, order: [3] })
    .manned()
    .upTo("secure");
  counted(story);
  story.upTo("starting").failedStart(3, 10);
  return story.wait(200);
};
const find = ({ state, now }: Story) => bladesCounted.find(state, 3, now).is;
const asked = ({ state, now }: Story) => askedOf(state, "groundPower", now).map((a) => a.say);
const clear = (story: Story) => story.send("supervisor", "clearToStart", { engine: 3 }).refusal;

describe("blades after a start that failed", () => {
  it("[CRD-22] are counted anew before the next attempt, which is not cleared before", () => {
    const story = failed(ANEW);
    expect(find(story)).toBe("unknown");
    expect(asked(story)).not.toContain("handlePropeller");
    story.requested(3).guarded(3);
    expect(clear(story)).toMatchObject({ reason: "conditionsUnmet", unmet: [{ id: "bladesCounted" }] });
    story.send("cockpit", "startAbandoned", { engine: 3 });
    // First somebody sees it stand still; then hands are asked for.
    story.send("fireGuard", "propellerStill", { engine: 3 });
    expect(asked(story)).toContain("handlePropeller");
    story.send("cockpit", "handlePropeller", { engine: 3 });
    expect(asked(story)).toContain("countBlades");
    count(story, 11);
    expect(find(story)).toBe("no");
    count(story, 12);
    expect(find(story)).toBe("yes");
    story.send("groundPower", "propellerFree", { engine: 3 });
    story.requested(3).guarded(3);
    expect(clear(story)).toBeUndefined();
  });

  it("[CRD-22] are due again after each further attempt that fails, and not once the engine ran", () => {
    const story = failed(ANEW);
    story.send("fireGuard", "propellerStill", { engine: 3 });
    counted(story);
    story.failedStart(3, 10).wait(300);
    expect(find(story)).toBe("unknown");
    story.send("fireGuard", "propellerStill", { engine: 3 });
    counted(story);
    expect(find(story)).toBe("yes");
    story.started(3);
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(find(story)).toBe("yes");
    expect(bladesFigure(story.state, 3, story.now)?.value).toBe(0);
  });

  it("[CRD-22] resistance felt before the attempt stays a no", () => {
    const story = given({ type: ANEW, order: [3] })
      .manned()
      .upTo("secure");
    counted(story);
    story.upTo("starting");
    story.cranking(3);
    count(story, 2, true);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    expect(find(story)).toBe("no");
  });

  it("[CRD-22] keep their time where the type does not say so", () => {
    expect(find(failed(PLAIN))).toBe("yes");
  });

  it("[CRD-22] the demo's types say so; the figure names its source", () => {
    for (const id of ["kestle-four", "penhale-twin", "carrack-three"])
      expect(seeded(id).bladeCount.afterFailed?.source.basis).toBe("commonPractice");
    const story = failed(ANEW);
    const figure = bladesFigure(story.state, 3, story.now);
    expect(figure).toMatchObject({ value: 12, verdict: "caution" });
    expect(figure?.inputs.filter((i) => i.name.startsWith("rule"))).toHaveLength(2);
  });

  it("[CRD-22] a range that ends below its beginning is refused with its place", () => {
    const kestle = seeded("kestle-four");
    const bladeCount = { ...kestle.bladeCount, afterFailed: { turn: { blades: 6, upTo: 5 }, source } };
    const read = readAircraftType({ ...kestle, bladeCount });
    expect("faults" in read && read.faults.map((f) => f.path)).toEqual(["bladeCount.afterFailed.turn.upTo"]);
  });
});
