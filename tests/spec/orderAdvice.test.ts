import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { adviceOn, orderAdvice } from "../../shared/plan/orderAdvice.ts";
import { RICH } from "../figures/rich.ts";
import { must } from "../models/must.ts";
import { given } from "./given.ts";

describe("order advice in a plan", () => {
  const advised = () => {
    const advice = orderAdvice({ type: RICH, engines: [1, 2, 3, 4], wind: null, headingDeg: null });
    return must(advice).best.order;
  };

  it("[ORD-1] another order than advised needs its reason, also before the brief; the advice is kept", () => {
    const story = given({ type: RICH }).manned();
    const other = [3, 1, 2, 4];
    expect(advised()).not.toEqual(other);
    story.say("supervisor", { type: "amendPlan", order: other });
    expect([story.refused, story.last.refusal?.found]).toEqual(["missingFigure", "reason"]);
    story.say("supervisor", { type: "amendPlan", order: other, reason: "door on the port side" });
    expect(story.refused).toBeNull();
    expect(story.state.orderAdvice?.order).toEqual(advised());
    expect(story.state.orderAdvice?.extra).toBeGreaterThan(0);
  });

  it("[ORD-1] the advised order needs no reason and has no extra cost", () => {
    const story = given({ type: RICH }).manned();
    story.say("supervisor", { type: "amendPlan", order: advised() });
    expect(story.refused).toBeNull();
    expect(story.state.orderAdvice).toEqual({ order: advised(), extra: 0 });
  });

  it("[ORD-1] an order that the rules do not allow has no cost", () => {
    const question = { type: RICH, engines: [1, 2, 3, 4], wind: null, headingDeg: null };
    expect(adviceOn(question, [1, 3, 2, 4])).toEqual({ order: advised(), extra: null });
  });

  it("[ORD-1] a plan for some engines gets advice on those only", () => {
    const story = given({ type: RICH }).manned();
    story.say("supervisor", { type: "amendPlan", order: [3] });
    expect(story.state.orderAdvice).toEqual({ order: [3], extra: 0 });
  });

  it.each(demo.types.map((t) => [t.id, t] as const))(
    "[ORD-2] in still air the usual order of the demo's %s is the one advised",
    (_id, type) => {
      const engines = type.engines.map((e) => e.n);
      const advice = must(orderAdvice({ type, engines, wind: null, headingDeg: null }));
      expect(advice.best.order).toEqual(type.defaultOrder);
    },
  );
});
