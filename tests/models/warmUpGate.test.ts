import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { warmUpGate } from "../../shared/models/warmUp/gate.ts";
import type { EngineSeries, GateRule } from "../../shared/models/warmUp/short.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import { must } from "./must.ts";

const engine = (n: number, gauges: Record<string, [Unit, number[]]>): EngineSeries => ({
  n,
  series: Object.entries(gauges).map(([gauge, [unit, values]]) => ({
    gauge,
    readings: values.map((value, i) => ({ seconds: i * 30, temperature: { value, unit } })),
  })),
});

describe("warm-up gate", () => {
  /** R-1830-92 by the 1946 US airline regulations 3034: oil 104 °F and cylinder heads 250 °F. */
  const r1830: GateRule[] = [
    { gauge: "oil", atLeast: { value: 104, unit: "degF" } },
    { gauge: "cht", atLeast: { value: 250, unit: "degF" } },
  ];
  /** R-1820 G-102, same source: oil temperature must rise by 10 °F. */
  const r1820: GateRule[] = [{ gauge: "oil", riseOf: { value: 10, unit: "degF" } }];
  const one = (oil: number, cht: number) => engine(1, { oil: ["degF", [oil]], cht: ["degF", [cht]] });

  it.each([
    [103, 260, false, ["oil"]],
    [104, 249, false, ["cht"]],
    [104, 250, true, []],
    [90, 200, false, ["oil", "cht"]],
  ])("[MOD-32] oil %i degF with heads at %i degF: open %s", (oil, cht, open, short) => {
    const gate = must(warmUpGate(r1830, [one(oil, cht)]));
    expect(gate.open).toBe(open);
    expect(gate.engines[0]?.short).toEqual(short);
    expect(gate.decidedBy).toBe(open ? null : 1);
  });

  it("[MOD-32] a rise of 10 degF from 50 is not met at 59, is met at 60, and by 5.6 K read in degC", () => {
    const rise = (unit: Unit, ...values: number[]) =>
      must(warmUpGate(r1820, [engine(1, { oil: [unit, values] })])).open;
    expect(rise("degF", 50, 55, 59)).toBe(false);
    expect(rise("degF", 50, 55, 60)).toBe(true);
    expect(rise("degC", 10, 15.5)).toBe(false);
    expect(rise("degC", 10, 15.6)).toBe(true);
  });

  it("[MOD-32] the gate is in its own unit: 40 degC is 104 degF, 121.1 degC is not 250", () => {
    const metric = (oil: number, cht: number) =>
      must(warmUpGate(r1830, [engine(1, { oil: ["degC", [oil]], cht: ["degC", [cht]] })])).open;
    expect(metric(40, 121.2)).toBe(true);
    expect(metric(40, 121.1)).toBe(false);
  });

  const rule: GateRule[] = [{ gauge: "oil", atLeast: { value: 40, unit: "degC" } }];
  const warming = (n: number, tau: number, readings = 12): EngineSeries =>
    engine(n, {
      oil: ["degC", Array.from({ length: readings }, (_, i) => 90 - 100 * Math.exp((-i * 30) / tau))],
    });

  it("[MOD-32] the coldest of four engines decides, and the time left is that engine's", () => {
    const gate = must(warmUpGate(rule, [warming(1, 480), warming(2, 900), warming(3, 600), warming(4, 300)]));
    expect(gate.open).toBe(false);
    expect(gate.decidedBy).toBe(2);
    expect(gate.left?.seconds).toBeCloseTo(900 * Math.LN2 - 330, 3);
    expect(gate.engines.map((e) => e.open)).toEqual([false, false, false, true]);
    expect(gate.engines[3]?.left).toBeNull();
  });

  it("[MOD-32] an engine with an unknown time decides before one with a known time; a gauge never read keeps the gate shut", () => {
    const flat = engine(3, { oil: ["degC", [30, 30.2, 30.1, 30.3, 30.1, 30.2]] });
    const gate = must(warmUpGate(rule, [warming(1, 900), flat]));
    expect([gate.decidedBy, gate.left]).toEqual([3, null]);
    const unread = must(warmUpGate(rule, [flat, engine(4, {})]));
    expect([unread.open, unread.decidedBy, unread.left]).toEqual([false, 4, null]);
    expect(unread.engines[1]?.shortfall).toBe(Number.POSITIVE_INFINITY);
  });

  it("[MOD-32] an engine short on two gauges waits for the slower one", () => {
    const two: GateRule[] = [...rule, { gauge: "cht", atLeast: { value: 60, unit: "degC" } }];
    const both = engine(1, {
      oil: ["degC", Array.from({ length: 8 }, (_, i) => 90 - 100 * Math.exp((-i * 30) / 480))],
      cht: ["degC", Array.from({ length: 8 }, (_, i) => 90 - 100 * Math.exp((-i * 30) / 400))],
    });
    const gate = must(warmUpGate(two, [both]));
    expect(gate.engines[0]?.short).toEqual(["oil", "cht"]);
    expect(gate.left?.seconds).toBeCloseTo(400 * Math.log(100 / 30) - 210, 3);
  });

  it("[MOD-32] one engine short keeps the gate shut, whatever the others show (property)", () => {
    const temperature = fc.integer({ min: -20, max: 90 });
    fc.assert(
      fc.property(fc.array(temperature, { minLength: 1, maxLength: 8 }), (values) => {
        const gate = must(
          warmUpGate(
            rule,
            values.map((v, i) => engine(i + 1, { oil: ["degC", [v]] })),
          ),
        );
        const coldest = Math.min(...values);
        expect(gate.open).toBe(coldest >= 40);
        expect(gate.decidedBy).toBe(coldest >= 40 ? null : values.indexOf(coldest) + 1);
      }),
      { seed: 3034 },
    );
  });

  it("[MOD-36] a gate without rules or engines and a temperature in psi are refused", () => {
    expect(warmUpGate([], [one(104, 250)]).ok).toBe(false);
    expect(warmUpGate(r1830, []).ok).toBe(false);
    expect(warmUpGate(rule, [engine(1, { oil: ["psi", [40]] })]).ok).toBe(false);
  });
});
