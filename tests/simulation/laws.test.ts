import { describe, expect, it } from "vitest";
import { busVolts, crankingAmps } from "../../shared/models/electrical/sag.ts";
import { viscosityAt } from "../../shared/models/oil/viscosity.ts";
import { pressureSpread } from "../../shared/models/runUp/manifoldPressure.ts";
import { heatAfter } from "../../shared/models/starterThermal.ts";
import { fitWarmUp } from "../../shared/models/warmUp/fit.ts";
import { solveBus } from "../../shared/simulation/bus.ts";
import { oilSettles } from "../../shared/simulation/engine.ts";
import { gaugeShows } from "../../shared/simulation/gauges.ts";
import { viscosity } from "../../shared/simulation/plant.ts";
import { stepAircraft } from "../../shared/simulation/step.ts";
import { Rig, TYPES, typeWith } from "./start.ts";

describe("the simulated aircraft's laws", () => {
  it("[RHS-11] its temperatures, fitted by the product, give its own parameters back", () => {
    // The law is Newton's: noise-free readings recover to 1e-8 (ml-levenberg-marquardt 5.1.0 does so too).
    const rig = new Rig().start(1);
    for (const gauge of ["oilC", "headC"] as const) {
      const one = new Rig().start(1);
      const readings = [];
      for (let seconds = 0; seconds <= 240; seconds += 15) {
        readings.push({ seconds, temperature: one.engine(1)[gauge] });
        one.run(15);
      }
      const fit = fitWarmUp(readings);
      const law = rig.plant.engines[0]?.[gauge === "oilC" ? "oil" : "head"];
      if (!fit.ok || !fit.value || !law) throw new Error("no fit");
      expect(fit.value.steady / law.steady).toBeCloseTo(1, 8);
      expect(fit.value.rate / law.rate).toBeCloseTo(1, 8);
    }
  });

  it("[RHS-68] a stopped engine's manifold shows the field's pressure, and running ones agree at one speed", () => {
    const type = TYPES.find(
      (t) => t.runUp && t.gauges.some(({ id }) => id === t.runUp?.manifold.pressureGauge),
    );
    if (!type?.runUp) throw new Error("a demo type has the gauge");
    const { pressureGauge, spread, rpmTolerance } = type.runUp.manifold;
    const rig = new Rig(type);
    const shown = (n: number) => gaugeShows(rig.plant, rig.now, pressureGauge, n)?.value ?? Number.NaN;
    // About 30 inHg at sea level with the engine stopped: FAA-H-8083-32, chapter 10.
    for (const { n } of type.engines) expect(Math.abs(shown(n) - 30)).toBeLessThanOrEqual(0.5);
    for (const { n } of type.engines) rig.start(n);
    rig.run(20);
    for (const { n } of type.engines) expect(shown(n)).toBeLessThan(15);
    const readings = type.engines.map(({ n }) => {
      const idle = rig.plant.engines.find((e) => e.n === n)?.idleRpm ?? 0;
      rig.set(n, { throttle: 0.1 + (1_700 - idle) / 1_600 }).run(20);
      return { engine: n, manifoldInHg: shown(n), rpm: rig.engine(n).rpm };
    });
    expect(readings.every(({ manifoldInHg }) => manifoldInHg > 18)).toBe(true);
    expect(pressureSpread(readings, spread, rpmTolerance.value)).toMatchObject({
      ok: true,
      value: { within: true },
    });
  });

  it("[RHS-11] read to the instrument's step, they come back within three of the fit's own standard errors", () => {
    const one = new Rig().start(1);
    const readings = [];
    for (let seconds = 0; seconds <= 360; seconds += 10) {
      readings.push({ seconds, temperature: Math.round(one.engine(1).oilC) });
      one.run(10);
    }
    const fit = fitWarmUp(readings);
    const law = one.plant.engines[0]?.oil;
    if (!fit.ok || !fit.value || !law) throw new Error("no fit");
    const steadyError = Math.sqrt(fit.value.covariance[0]?.[0] ?? 0);
    expect(Math.abs(fit.value.steady - law.steady)).toBeLessThan(3 * steadyError);
  });

  it("[RHS-11] its starter is as hot as the product's thermal model says after the same engagements", () => {
    const rig = new Rig();
    const uses = [
      { on: 0, off: 15 },
      { on: 75, off: 95 },
      { on: 215, off: 230 },
    ];
    let at = 0;
    for (const { on, off } of uses) {
      rig.set(2, { starter: false }).run(on - at || 1e-9);
      rig.set(2, { starter: true }).run(off - on);
      at = off;
    }
    const heat = heatAfter(rig.plant.starter.heat, uses, 230);
    if (!heat.ok) throw new Error(heat.why);
    expect(rig.engine(2).starterK / heat.value).toBeCloseTo(1, 9);
  });

  it("[RHS-12] one starter on one source: the bus and the current are those of the product's sag model", () => {
    const { plant } = new Rig();
    for (const back of [0, 4, 9]) {
      const { volts, motors } = solveBus(
        [plant.cart],
        [{ is: "motor", ohm: plant.starter.ohm, backVolts: back }],
      );
      const amps = crankingAmps(plant.cart, plant.starter.ohm, back);
      if (!amps.ok) throw new Error(amps.why);
      const sag = busVolts(plant.cart, amps.value);
      expect(motors[0]).toBeCloseTo(amps.value, 8);
      expect(volts).toBeCloseTo(sag.ok ? sag.value : Number.NaN, 8);
    }
  });

  it("[RHS-12] it draws the type's breakaway current at standstill, and its steady current at cranking speed", () => {
    for (const type of TYPES) {
      const { plant } = new Rig(type);
      const draws = (backVolts: number) =>
        solveBus([plant.cart], [{ is: "motor", ohm: plant.starter.ohm, backVolts }]).motors[0] ?? 0;
      const { breakaway, steady } = type.electrical?.starter ?? {};
      expect(draws(0)).toBeCloseTo(breakaway?.value ?? 0, 6);
      expect(draws(plant.starter.backVolts)).toBeCloseTo(steady?.value ?? 0, 6);
    }
  });

  it("[RHS-12] two sources in parallel share a load as the textbook's example does", () => {
    // Two batteries in parallel: 12.6 V behind 0.04 Ω and 12.2 V behind 0.06 Ω on a lamp of 24 A. By Kirchhoff's laws,
    // worked by hand: V = (12.6/0.04 + 12.2/0.06 − 24)/(1/0.04 + 1/0.06) = 494.333/41.667 = 11.864 V; 18.4 A and 5.6 A.
    const sources = [
      { openCircuit: 12.6, internalOhm: 0.04, cableOhm: 0 },
      { openCircuit: 12.2, internalOhm: 0.06, cableOhm: 0 },
    ];
    const { volts, feeds } = solveBus(sources, [{ is: "steady", amps: 24 }]);
    expect(volts).toBeCloseTo(11.864, 3);
    expect(feeds[0]).toBeCloseTo(18.4, 6);
    expect(feeds[1]).toBeCloseTo(5.6, 6);
  });

  it("[RHS-12] 25.2 V behind 10 mΩ sag as the product's reference table of sag has it", () => {
    const source = { openCircuit: 25.2, internalOhm: 0.006, cableOhm: 0.004 };
    const volts = [200, 400, 600, 1000].map((amps) => solveBus([source], [{ is: "steady", amps }]).volts);
    for (const [i, shown] of [23.2, 21.2, 19.2, 15.2].entries()) expect(volts[i]).toBeCloseTo(shown, 9);
  });

  it("[RHS-11] a starter's cooling is the closed form: from 80 to 40 of heat in 600·ln 2 = 415.888 s", () => {
    const rig = new Rig();
    const { plant } = rig;
    const slow = { ...plant, starter: { ...plant.starter, heat: { steady: 300, tauOn: 180, tauOff: 600 } } };
    const engines = rig.now.engines.map((e) => ({ ...e, starterK: 80 }));
    const cooled = stepAircraft(slow, { ...rig.now, engines }, rig.hands, rig.supply, rig.wrong, 415.888);
    expect(cooled.engines[0]?.starterK).toBeCloseTo(40, 4);
  });

  it("[RHS-12] several starters pull one bus down together, and no source is fed backwards", () => {
    const rig = new Rig();
    rig.supply = { cart: true, batteries: false };
    const one = rig.set(1, { starter: true }).run(2).now.busVolts;
    const two = rig.set(2, { starter: true }).run(2).now.busVolts;
    expect(two).toBeLessThan(one - 1);
    const strong = { openCircuit: 28, internalOhm: 0.01, cableOhm: 0 };
    const weak = { openCircuit: 24, internalOhm: 0.01, cableOhm: 0 };
    expect(solveBus([strong, weak], [{ is: "steady", amps: 50 }]).feeds[1]).toBe(0);
  });

  it("[RHS-13] its oil is as thick as the product's line says, and thicker oil shows more pressure, later", () => {
    const rig = new Rig(typeWith(4), 1, 12);
    const read = viscosityAt(rig.plant.oil, 40);
    expect(viscosity(rig.plant.oil, 40)).toBe(read.ok ? read.value.mm2s : null);
    // The type's own oil: 212 mm²/s at 40 °C by its maker's sheet.
    expect(viscosity(rig.plant.oil, 40)).toBeCloseTo(212, 6);
    const engine = rig.plant.engines[0];
    if (!engine) throw new Error("no engine");
    const settles = (oilC: number) => oilSettles(rig.plant, engine, 1000, viscosity(rig.plant.oil, oilC));
    expect(settles(20)).toBeGreaterThan(settles(60));
    const risen = (airC: number) => {
      const cold = new Rig(typeWith(4), 1, airC).start(1);
      const settles = oilSettles(cold.plant, engine, cold.engine(1).rpm, viscosity(cold.plant.oil, airC));
      return cold.engine(1).oilPsi / Math.max(1, settles);
    };
    expect(risen(-15)).toBeLessThan(risen(12));
  });
});
