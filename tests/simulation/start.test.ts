import { describe, expect, it } from "vitest";
import { gaugeShows } from "../../shared/simulation/gauges.ts";
import { NOTHING_WRONG } from "../../shared/simulation/state.ts";
import { Rig, TYPES, typeWith } from "./start.ts";

describe("a simulated start", () => {
  it.each(TYPES.map((t) => [t.id, t] as const))(
    "[RHS-10] %s: every engine starts, shows oil in time, warms past its gate and brings its accessories",
    (_id, type) => {
      const rig = new Rig(type);
      for (const n of type.defaultOrder) {
        rig.start(n);
        expect(rig.engine(n).is, `number ${n}`).toBe("running");
        rig.run(type.oil.normal.within.value - 6);
        const oil = gaugeShows(rig.plant, rig.now, "oilPressure", n);
        expect(oil?.value).toBeGreaterThanOrEqual(type.oil.normal.atLeast.value);
        expect(oil?.unit).toBe("psi");
      }
      rig.supply = { cart: false, batteries: true };
      rig.run(600);
      for (const gate of type.warmUp) {
        if (!("atLeast" in gate)) continue;
        for (const { n } of type.engines)
          expect(gaugeShows(rig.plant, rig.now, gate.gauge, n)?.value).toBeGreaterThanOrEqual(
            gate.atLeast.value,
          );
      }
      for (const id of ["busVolts", "suction", "hydraulic"]) {
        const gauge = type.gauges.find((g) => g.id === id);
        const shown = gaugeShows(rig.plant, rig.now, id, null)?.value ?? 0;
        expect(shown, id).toBeGreaterThanOrEqual(gauge?.normalLow ?? 0);
        expect(shown, id).toBeLessThanOrEqual(gauge?.normalHigh ?? Number.POSITIVE_INFINITY);
      }
    },
  );

  it("[RHS-14] no prime does not fire; too much is flooded, and clears with the throttle open at cut-off", () => {
    expect(new Rig().start(1, 0.3).engine(1).is).not.toBe("running");
    const flooded = new Rig().start(1, 3);
    expect(flooded.engine(1).is).not.toBe("running");
    flooded.set(1, { mixture: 0, throttle: 1, starter: true, ignition: true }).run(15);
    expect(flooded.engine(1).is).toBe("firing");
    flooded.set(1, { mixture: 0.8, throttle: 0.1, starter: false }).run(6);
    expect(flooded.engine(1).is).toBe("running");
  });

  it("[RHS-14] without ignition, without the boost pump or without mixture it does not run", () => {
    for (const lacks of [{ ignition: false }, { boostPump: false }, { mixture: 0 }]) {
      const rig = new Rig();
      rig.set(1, { boostPump: true, primer: true }).run(rig.plant.primeNeeded);
      rig.set(1, { primer: false, starter: true, ignition: true, ...lacks }).run(10);
      rig.set(1, { mixture: 0.8, ...lacks }).run(10);
      rig.set(1, { starter: false }).run(10);
      expect(rig.engine(1).is, JSON.stringify(lacks)).not.toBe("running");
    }
  });

  it("[RHS-14] a hung engine fires and stays slow; a dead one only turns", () => {
    const hung = new Rig();
    hung.wrong = { ...NOTHING_WRONG, hung: [1] };
    hung.start(1).run(20);
    expect(hung.engine(1).is).toBe("firing");
    expect(hung.engine(1).rpm).toBeLessThan(600);
    const dead = new Rig();
    dead.wrong = { ...NOTHING_WRONG, dead: [1] };
    expect(dead.start(1).engine(1).is).not.toBe("running");
  });

  it("[RHS-15] faults show: no oil, a dead vacuum and generator, a cart that sags or drops, brakes that bleed", () => {
    const rig = new Rig(typeWith(2)).start(1).start(2).run(30);
    const good = rig.now;
    expect(Object.keys(good.generatorAmps)).toEqual(["1", "2"]);
    rig.wrong = { ...NOTHING_WRONG, noOil: [1], vacuumDead: true, generatorDead: [2], brakesBleed: true };
    rig.run(60);
    expect(rig.engine(1).oilPsi).toBeLessThan(1);
    expect(rig.engine(1).withoutOilS).toBeGreaterThan(50);
    expect(rig.engine(2).oilPsi).toBeGreaterThan(20);
    expect(rig.now.suction).toBeLessThan(0.01);
    expect(Object.keys(rig.now.generatorAmps)).toEqual(["1"]);
    expect(rig.now.brakePart).toBeLessThan(0.2);
    const cart = new Rig();
    cart.supply = { cart: true, batteries: false };
    const steady = cart.run(1).now.busVolts;
    cart.wrong = { ...NOTHING_WRONG, cart: 0.8 };
    expect(cart.run(1).now.busVolts).toBeLessThan(steady - 3);
    cart.wrong = { ...NOTHING_WRONG, cart: 0 };
    expect(cart.run(1).now.busVolts).toBe(0);
  });

  it("[RHS-16] the same seed and the same hands give the same aircraft to the last bit, another seed another", () => {
    const run = (seed: number) => JSON.stringify(new Rig(typeWith(4), seed).start(2).run(100).start(3).now);
    expect(run(5)).toBe(run(5));
    expect(run(5)).not.toBe(run(6));
  });
});
