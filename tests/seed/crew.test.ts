import { describe, expect, it } from "vitest";
import { START, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { playOut } from "./stage.ts";
import { withoutCard } from "./withoutCard.ts";

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

describe.each(demo.types.map((t) => [t.id, t] as const))("%s", (_id, type) => {
  it.each(["groundPower", "batteries"] as const)(
    "[SED-6] [ALR-4] four partners play a start on %s to its end, with no alert and no refusal",
    (powerSource) => {
      const minutes: number[] = [];
      for (const seed of SEEDS) {
        const stage = new Stage(type, powerSource);
        stage.everyoneClaims();
        const left = playOut(stage, { seed, pace: 1, cart: "Bal Maiden" });
        const facts = stage.events.map((e) => e.fact);
        expect(left, `seed ${seed}`).toBeNull();
        expect(stage.state.stage, `seed ${seed}`).toBe("closed");
        expect(facts.filter((f) => f.type === "alertRaised")).toEqual([]);
        expect(facts.filter((f) => f.type === "refused")).toEqual([]);
        const started = facts.flatMap((f) => (f.type === "sent" && f.kind === "started" ? [f.engine] : []));
        expect(started).toEqual(type.defaultOrder);
        minutes.push((stage.now - START) / 60_000);
      }
      expect(Math.min(...minutes)).toBeGreaterThan(2);
      expect(Math.max(...minutes)).toBeLessThan(30);
    },
  );
});

it("[CRD-13] [SED-6] four partners play a start of a type without a card, and are asked for none", () => {
  const [type] = demo.types.map(withoutCard);
  if (!type) throw new Error("the demo has a type");
  expect("type" in readAircraftType(type)).toBe(true);
  const stage = new Stage(type, "groundPower");
  stage.everyoneClaims();
  expect(playOut(stage, { seed: 1, pace: 1, cart: "Bal Maiden" })).toBeNull();
  expect(stage.state.stage).toBe("closed");
  expect(stage.state.card).toBeUndefined();
  const troubles = stage.events.filter((e) => ["refused", "alertRaised"].includes(e.fact.type));
  expect(troubles).toEqual([]);
});
