import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { cardDue } from "../../shared/card/due.ts";
import { generatorFigure } from "../../shared/figures/generator.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { seeded } from "../print/troubled.ts";
import { given, type Story } from "../spec/given.ts";
import { STOPPED } from "../spec/stoppable.ts";

const KESTLE = seeded("kestle-four");
const item = (KESTLE.card ?? []).find((i) => i.id === "generatorLoad");

/** A small type with the Kestle's generators, its ammeter and the item of its card. */
const TYPE: AircraftType = {
  ...STOPPED,
  engines: STOPPED.engines.map((e, i) => ({ ...e, accessories: KESTLE.engines[i]?.accessories ?? [] })),
  gauges: [...STOPPED.gauges, ...KESTLE.gauges.filter((g) => g.id === "generatorLoad")],
  electrical: KESTLE.electrical as NonNullable<AircraftType["electrical"]>,
  card: item ? [item] : [],
};

const due = ({ state, now }: Story) => cardDue(state, now).map((p) => `${p.item.id}:${p.engine}`);
const answer = (story: Story, engine: number, value: number) =>
  story.say("cockpit", {
    ...{ type: "answerCard", item: "generatorLoad", engine, reading: { value, unit: "A" } },
  });

describe("the load of a generator on the card", () => {
  it("[CRD-21] is asked of each engine that drives one, and judged by the rating of its plate", () => {
    expect(item?.engines).toEqual(
      KESTLE.engines.filter((e) => e.accessories.includes("generator")).map((e) => e.n),
    );
    const rating = KESTLE.electrical?.generator?.rating.value;
    expect(KESTLE.gauges.find((g) => g.id === "generatorLoad")?.max).toBe(rating);
    const story = given({ type: TYPE, order: [3], powerSource: "batteries" })
      .manned()
      .upTo("starting");
    expect(due(story)).toEqual([]);
    story.started(3);
    expect(due(story)).toEqual(["generatorLoad:3"]);
    const [ask] = askedOf(story.state, "cockpit", story.now).filter((a) => a.key.startsWith("card:"));
    expect(ask).toMatchObject({ engine: 3, choices: [{ need: { is: "figure", unit: "A" } }] });
    for (const [amps, good] of [
      [5, true],
      [4, false],
      [200, true],
      [201, false],
    ] as const) {
      answer(story, 3, amps);
      expect([amps, story.state.card?.["generatorLoad:3"]?.good]).toEqual([amps, good]);
    }
    // The figure beside it reads the same gauge: 201 of 200 A.
    expect(generatorFigure(story.state, 3)).toMatchObject({ value: 100.5, verdict: "bad" });
  });

  it("[CRD-21] is not asked while ground power carries the bus", () => {
    const story = given({ type: TYPE, order: [3, 4] })
      .manned()
      .upTo("warmUp");
    expect(story.state.groundPower.is).toBe("on");
    expect(due(story)).toEqual([]);
    // Somebody who looks all the same may answer.
    expect(answer(story, 4, 60).refusal).toBeUndefined();
    story.powerOff();
    expect(due(story)).toEqual(["generatorLoad:3"]);
  });
});
