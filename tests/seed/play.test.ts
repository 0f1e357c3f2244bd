import { describe, expect, it } from "vitest";
import { personAt, START, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { intend, type Move, playPost } from "../../shared/partners/play.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { playOut } from "./stage.ts";

const script = { seed: 5, pace: 1, cart: "Knocker" };
const twin = demo.types.find((t) => t.id === "penhale-twin") as AircraftType;

function played(seed: number, pace = 1): Stage {
  const stage = new Stage(twin, "groundPower");
  stage.everyoneClaims();
  playOut(stage, { ...script, seed, pace });
  return stage;
}

describe("a scripted partner", () => {
  it("[SED-12] plays the same for the same script, otherwise for another seed", () => {
    const bytes = (stage: Stage) => JSON.stringify(stage.events);
    expect(bytes(played(5))).toBe(bytes(played(5)));
    expect(bytes(played(5))).not.toBe(bytes(played(6)));
  });

  it("[SED-12] plays as many times faster as its pace says", () => {
    const took = (pace: number) => played(5, pace).now - START;
    // Engines, and the look once in a while, keep their own time.
    expect(took(1) / took(4)).toBeGreaterThan(2.8);
    expect(took(1) / took(4)).toBeLessThan(5);
  });

  it("[SED-12] restarts its pause only when its next action changes", () => {
    const move = (key: string, notBefore = 0): Move => ({
      key,
      action: { type: "confirmBrief" },
      pauseMs: 2_000,
      notBefore,
    });
    const first = intend(null, move("a"), 10_000);
    expect(first).toEqual({ key: "a", at: 12_000 });
    expect(intend(first, move("a"), 11_000)).toEqual({ key: "a", at: 12_000 });
    expect(intend(first, move("b"), 11_000)).toEqual({ key: "b", at: 13_000 });
    expect(intend(first, move("a", 20_000), 11_000)).toEqual({ key: "a", at: 20_000 });
    expect(intend(first, null, 11_000)).toBeNull();
  });

  it("[SED-13] answers a hold at once, and ends no hold that another raised, not even as the heir of its post", () => {
    const stage = new Stage(twin, "groundPower");
    stage.everyoneClaims();
    const person = { id: "p-person", name: "Somebody", device: "d-person", mayHold: POSTS };
    stage.do(personAt("fireGuard"), { type: "leavePost", post: "fireGuard" });
    stage.do(person, { type: "claimPost", post: "fireGuard" });
    stage.do(person, { type: "send", kind: "hold", channel: "panel" });
    for (const post of ["cockpit", "groundPower", "supervisor"] as const) {
      const move = playPost(stage.state, post, stage.now, script);
      expect(move?.action).toMatchObject({ type: "answer", answer: "received" });
      expect(move?.pauseMs).toBeLessThan(twin.timing.stop.value * 1000);
    }
    stage.do(person, { type: "leavePost", post: "fireGuard" });
    stage.do(personAt("fireGuard"), { type: "claimPost", post: "fireGuard" });
    expect(playOut(stage, script)).toBe("stuck in plan");
    expect(stage.state.holds).toHaveLength(1);
  });

  it("[SED-13] gives a start up before the starter's limit, and lets it cool, where the engine does not catch", () => {
    const gaveUp = Array.from({ length: 16 }, (_, seed) => played(seed)).filter((s) =>
      s.events.some((e) => e.fact.type === "sent" && e.fact.kind === "startAbandoned"),
    );
    expect(gaveUp.length).toBeGreaterThan(0);
    for (const stage of gaveUp) {
      expect(stage.state.stage).toBe("closed");
      const kinds = stage.events.map((e) => (e.fact.type === "sent" ? e.fact.kind : e.fact.type));
      expect(kinds).toContain("starterCooled");
      expect(kinds).not.toContain("alertRaised");
    }
  });
});
