import { describe, expect, it } from "vitest";
import { findUnmet } from "../../shared/conditions/all.ts";
import { CREW, given, type Story } from "../spec/given.ts";

const starting = () => given().upTo("starting").requested(3);
const unmet = (story: Story) => findUnmet(story.state, 3, story.now).map((u) => [u.id, u.is]);
const seen = { channel: "hand", seenFrom: "fireGuard", engine: 3 } as const;

describe("the guard's hand signal, recorded by another", () => {
  it("[CON-19] counts when the cockpit or ground power saw it", () => {
    for (const post of ["cockpit", "groundPower"] as const) {
      const story = starting();
      story.send(post, "guardInPlace", seen);
      story.send(post, "arcClear", seen);
      expect(unmet(story)).toEqual([]);
    }
  });

  it("[CON-19, CLR-1] counts as unknown when the person who clears recorded it, until another person reports it", () => {
    const story = starting();
    story.send("supervisor", "guardInPlace", seen);
    story.send("supervisor", "arcClear", seen);
    expect(unmet(story)).toEqual([
      ["guardInPlace", "unknown"],
      ["arcClear", "unknown"],
    ]);
    expect(story.send("supervisor", "clearToStart", { engine: 3 }).refusal?.reason).toBe("conditionsUnmet");
    story.guarded(3);
    expect(unmet(story)).toEqual([]);
  });

  it("[CON-19] counts as unknown when the person who recorded it has become the one who clears", () => {
    const story = starting();
    story.send("cockpit", "guardInPlace", seen);
    story.send("cockpit", "arcClear", seen);
    const both = { ...CREW.cockpit, mayHold: ["cockpit", "supervisor"] as const };
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    story.does(both, { type: "claimPost", post: "supervisor" });
    expect(unmet(story)).toContainEqual(["guardInPlace", "unknown"]);
    expect(unmet(story)).toContainEqual(["arcClear", "unknown"]);
  });

  it("[CON-14, CON-19] counts from anybody when it says that the arc is not clear", () => {
    const story = starting().guarded(3);
    story.send("supervisor", "arcNotClear", seen);
    expect(unmet(story)).toEqual([["arcClear", "no"]]);
  });

  it("[SIG-16] ages from the moment at which it was seen", () => {
    const story = starting();
    story.wait(60);
    story.send("cockpit", "guardInPlace", seen);
    story.send("cockpit", "arcClear", { ...seen, seenAt: story.now - 44_999 });
    expect(unmet(story)).toEqual([]);
    story.waitMs(1);
    expect(unmet(story)).toEqual([["arcClear", "stale"]]);
    // A panel's clock that is ahead makes nothing fresher than its record.
    story.send("cockpit", "arcClear", { ...seen, seenAt: story.now + 60_000 });
    expect(story.state.arcs[3]?.at).toBe(story.now);
  });

  it("[SIG-16] is refused if it was seen before the guard went away, and counts if seen after", () => {
    const story = starting().guarded(3);
    story.send("fireGuard", "guardAway");
    const away = story.now;
    story.wait(2);
    expect(story.send("cockpit", "guardInPlace", { ...seen, seenAt: away }).refusal?.reason).toBe("tooLate");
    expect(story.state.guard).toBeNull();
    story.send("cockpit", "guardInPlace", { ...seen, seenAt: away + 1 });
    expect(story.send("cockpit", "arcClear", { ...seen, seenAt: away }).refusal?.reason).toBe("tooLate");
    story.send("cockpit", "arcClear", { ...seen, seenAt: away + 1 });
    expect(unmet(story)).toEqual([]);
  });
});
