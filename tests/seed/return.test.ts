import { describe, expect, it } from "vitest";
import type { Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { Day } from "./day.ts";
import { playOut } from "./stage.ts";

const SEEDS = [1, 2, 3];

/** Plays a session to its end, or to a stage, and returns it. */
function played(stage: Stage, seed: number, until?: Parameters<typeof playOut>[2]): Stage {
  expect(playOut(stage, { seed, pace: 1, cart: "Knocker" }, until), `seed ${seed}`).toBeNull();
  const trouble = stage.events.filter((e) => ["refused", "alertRaised"].includes(e.fact.type));
  expect(trouble, `seed ${seed}`).toEqual([]);
  return stage;
}

const sent = (stage: Stage, kind: string) =>
  stage.events.flatMap(({ fact }) => (fact.type === "sent" && fact.kind === kind ? [fact.engine] : []));

describe.each(demo.types.map((t) => [t.id, t] as const))("%s", (_id, type: AircraftType) => {
  it.each(SEEDS)("[RTN-21] a start, its return, and the next start's first clearance (seed %i)", (seed) => {
    const day = new Day(type);
    const start = played(day.plan(), seed);
    day.after(start, 2);
    const stopping = type.stopping?.order ?? [];
    // After a start the aircraft is away with engines that turn.
    expect(day.record.items.map((i) => i.item.is)).toContain("turning");
    const back = day.plan({ purpose: "return" });
    played(back, seed);
    expect(back.state.stage).toBe("closed");
    expect(sent(back, "shutDown")).toEqual(stopping);
    expect(sent(back, "propellerStill")).toEqual(stopping);
    expect(back.events.some((e) => e.fact.type === "coolDownCut")).toBe(false);
    day.after(back, 1);
    expect(day.record.items).toEqual([]);
    const stoppedAt = back.events.findLast((e) => e.fact.type === "sent" && e.fact.kind === "shutDown")?.at;
    expect(Math.max(...day.record.engines.map((e) => e.lastRanAt ?? 0))).toBe(stoppedAt);
    const next = day.plan();
    const [first] = next.state.order;
    played(next, seed, (state) => state.engines.some((e) => e.life.is === "clear"));
    expect(sent(next, "clearToStart")).toEqual([first]);
  });

  it("[RTN-2] [RTN-21] a return with one engine already stopped: its propeller is looked at too", () => {
    const day = new Day(type);
    const order = (type.stopping?.order ?? []).slice(1);
    const dead = type.stopping?.order[0] ?? 0;
    const back = played(day.plan({ purpose: "return", order }), 1);
    expect(back.state.stage).toBe("closed");
    expect(sent(back, "shutDown")).toEqual(order);
    expect(sent(back, "propellerStill").toSorted()).toEqual(type.engines.map((e) => e.n));
    expect(sent(back, "propellerStill")).toContain(dead);
    day.after(back, 1);
    expect(day.record.items).toEqual([]);
  });
});
