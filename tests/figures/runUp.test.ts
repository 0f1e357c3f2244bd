import { describe, expect, it } from "vitest";
import { featherFigure, magnetoFigure, manifoldFigure, releaseFigure } from "../../shared/figures/runUp.ts";
import type { RunUpItem } from "../../shared/protocol/commands.ts";
import { given } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { numberIn, told } from "./told.ts";

function warm(order = [3]) {
  return given({ type: RICH, order }).manned().upTo("warmUp");
}
type Told = ReturnType<typeof warm>;

function read(story: Told, engine: number, figures: Partial<Record<RunUpItem, number>>) {
  for (const [item, value] of Object.entries(figures)) {
    const unit = item === "powerManifold" ? "inHg" : "rpm";
    story.say("cockpit", {
      type: "recordRunUp",
      engine,
      item: item as RunUpItem,
      reading: { value, unit },
    });
    expect(story.refused).toBeNull();
  }
}

describe("run-up", () => {
  it("[FIG-19] magnetos: 150 and 95 rpm pass alone and are 55 apart, over 50 (a flat engine's manual)", () => {
    const story = warm();
    expect(told(magnetoFigure(story.state, 3))).toMatchObject({ value: null, verdict: "unknown" });
    read(story, 3, { magnetoBoth: 1700, magnetoLeft: 1550, magnetoRight: 1605 });
    const figure = told(magnetoFigure(story.state, 3));
    expect(figure).toMatchObject({ value: 150, verdict: "bad" });
    expect(figure.caution).toMatch(/uneven/);
    read(story, 3, { magnetoRight: 1600 });
    expect(magnetoFigure(story.state, 3)?.verdict).toBe("good");
    read(story, 3, { magnetoRight: 1700 });
    expect(magnetoFigure(story.state, 3)?.caution).toMatch(/no drop on the right/);
  });

  it("[FIG-19] feathering is pulled out by a drop of 100 rpm (airline operations 1946, 3034)", () => {
    const story = warm();
    read(story, 3, { featherBefore: 1700, featherLowest: 1600, featherAfter: 1690 });
    expect(told(featherFigure(story.state, 3))).toMatchObject({ value: 100, verdict: "good" });
    read(story, 3, { featherLowest: 1599 });
    expect(featherFigure(story.state, 3)?.verdict).toBe("bad");
  });

  it("[FIG-19] pressures 27.0 to 28.1 are 1.1 apart, over 1 (TM 1-1500-204-23-1)", () => {
    const story = warm([1, 2, 3, 4]);
    [27, 27.4, 27.9, 28.1].forEach((inHg, i) => {
      expect(manifoldFigure(story.state)?.verdict).toBe("unknown");
      read(story, i + 1, { powerManifold: inHg, powerRpm: 1700 });
    });
    const figure = told(manifoldFigure(story.state));
    expect(numberIn(figure)).toBeCloseTo(1.1, 9);
    expect(figure.verdict).toBe("bad");
    expect(figure.caution).toBe("Number 4 highest, number 1 lowest.");
  });

  it("[FIG-19] names what keeps the release, and says ready when nothing does", () => {
    const story = warm();
    const before = told(releaseFigure(story.state));
    expect(before.verdict).toBe("bad");
    expect(before.inputs.map((i) => i.name)).toEqual([
      "Run-up of number 3: magnetos not done",
      "Run-up of number 3: feathering not done",
      "Run-up of number 3: power not done",
    ]);
    read(story, 3, { magnetoBoth: 1700, magnetoLeft: 1640, magnetoRight: 1650 });
    read(story, 3, { featherBefore: 1700, featherLowest: 1640, featherAfter: 1700 });
    read(story, 3, { powerManifold: 27, powerRpm: 1700 });
    expect(told(releaseFigure(story.state))).toMatchObject({
      words: "release.ready",
      value: 0,
      verdict: "good",
    });
  });
});
