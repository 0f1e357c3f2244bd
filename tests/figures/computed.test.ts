import { describe, expect, it } from "vitest";
import { airFigures } from "../../shared/figures/air.ts";
import { aliveFigure } from "../../shared/figures/alive.ts";
import { primeFigure } from "../../shared/figures/prime.ts";
import { attemptsFigure } from "../../shared/figures/starter.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";
import { inputOf } from "./told.ts";

const source = { basis: "invented", text: "for tests" } as const;
const s = (value: number) => ({ value, unit: "s", source }) as const;
const TYPE: AircraftType = {
  ...FOUR,
  engines: FOUR.engines.map((e) => ({
    ...e,
    accessories: e.n === 3 ? ["generator", "hydraulicPump"] : e.n === 1 ? [] : ["generator"],
  })),
  starter: { ...FOUR.starter, attempts: { value: 2, unit: "count", source } },
  conditions: [...FOUR.conditions, "attemptsLeft"],
  prime: {
    amount: s(2),
    colder: [{ upTo: { value: 0, unit: "degC", source }, amount: s(8) }],
    hot: { within: s(60), amount: s(0) },
    gauge: "oilTemp",
  },
};
const starting = () => given({ type: TYPE }).manned().upTo("starting");

describe("figures for the engine's card", () => {
  it("[FIG-20] the prime follows the engine's own temperature, then the air's, and is unknown without either", () => {
    const story = starting();
    expect(primeFigure(story.state, 3, story.now)).toMatchObject({ value: null, verdict: "unknown" });
    story.air(-5);
    expect(primeFigure(story.state, 3, story.now)).toMatchObject({ value: 8, unit: "s", words: "prime" });
    story.reading("oilTemp", 3, 20, "degC");
    expect(primeFigure(story.state, 3, story.now)?.value).toBe(2);
    expect(primeFigure(story.state, 4, story.now)?.value).toBe(8);
    expect(primeFigure(given().state, 3, 0)).toBeNull();
  });

  it("[FIG-20] an engine that stopped just now is hot", () => {
    const story = starting();
    story.air(-5);
    story.caught(3);
    story.send("cockpit", "shutDown", { engine: 3, note: "for the test" });
    expect(primeFigure(story.state, 3, story.now)).toMatchObject({ value: 0, words: "prime.hot" });
    story.wait(61);
    expect(primeFigure(story.state, 3, story.now)).toMatchObject({ value: 8, words: "prime" });
  });

  it("[FIG-21] carburettor ice is shown once a dew point is recorded", () => {
    const story = starting();
    const icing = () => airFigures(story.state).find((f) => f.id === "carburettorIcing");
    story.air(22);
    expect(icing()).toBeUndefined();
    story.air(22, { dewPointC: 5 });
    expect(icing()).toMatchObject({ words: "icing.likely", verdict: "caution" });
    // 8.72 hPa of 26.4: a third.
    expect(Number(icing()?.value)).toBeCloseTo(33, 0);
    story.air(15, { dewPointC: -10 });
    expect(icing()).toMatchObject({ words: "icing.unlikely", verdict: "good" });
  });

  it("[FIG-22] an engine shows what comes alive with it: first what no turning engine drives", () => {
    const story = starting();
    expect(aliveFigure(story.state, 3)).toMatchObject({
      value: "generator, hydraulic pump",
      words: "alive.first",
    });
    story.started(3);
    expect(aliveFigure(story.state, 3)).toBeNull();
    expect(aliveFigure(story.state, 4)).toMatchObject({ value: "generator", words: "alive.more" });
    expect(aliveFigure(story.state, 1)).toBeNull();
  });

  it("[FIG-23] attempts count since the engine last ran, against the type's number", () => {
    const story = starting();
    expect(attemptsFigure(story.state, 3)).toMatchObject({ value: 0, verdict: "good" });
    story.failedStart(3, 20);
    expect(attemptsFigure(story.state, 3)).toMatchObject({ value: 1, verdict: "caution" });
    story.wait(60).failedStart(3, 20);
    const figure = attemptsFigure(story.state, 3);
    expect(figure).toMatchObject({ value: 2, verdict: "bad" });
    expect(inputOf(figure, "attempts before the reason is looked for").value).toBe(2);
    expect(attemptsFigure(given().state, 3)).toBeNull();
  });

  it("[CON-20] after the type's number of attempts no clearance is given until two people say why", () => {
    const story = starting();
    const bars = () => {
      story.requested(3).guarded(3);
      const step = story.send("supervisor", "clearToStart", { engine: 3 });
      return step.refusal?.unmet?.find((u) => u.id === "attemptsLeft");
    };
    story.failedStart(3, 20).wait(60).failedStart(3, 20).wait(1800);
    expect(bars()).toMatchObject({ is: "no", found: "2" });
  });

  it("[CON-20] attempts before this session count too, and an engine that ran begins anew", () => {
    const story = starting();
    story.failedStart(3, 20).wait(60);
    story.caught(3);
    expect(attemptsFigure(story.state, 3)?.value).toBe(0);
  });
});
