import { expect, it } from "vitest";
import { fill } from "../../shared/asks/ask.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { figureSpec, readAnew } from "../../web/posts/shared/figures.ts";
import { sayAction } from "../../web/posts/shared/sayAction.ts";
import { wordsNow } from "../../web/words/words.ts";
import { seeded } from "../print/troubled.ts";
import { given, type Say } from "../spec/given.ts";

const words = wordsNow();

it("[RTN-31] a forecast is said with its source, and entered anew with its source", () => {
  const story = given({ type: seeded("carrack-three"), purpose: "return" })
    .manned()
    .upTo("stopping");
  const said: Say = {
    type: "recordCheck",
    check: "nightLeast",
    reading: { value: 14, unit: "degF" },
    note: "Weather office",
  };
  expect(sayAction(story.state, said as never, AS_READ, words)).toBe(
    "Least temperature expected this night: 14 °F (Weather office)",
  );
  const again = readAnew(story.state, said as never);
  expect(again?.need).toEqual({ is: "forecast", unit: "degF" });
  if (!again) throw new Error("no forecast to enter anew");
  expect(fill(again, { figure: { value: 12, unit: "degF" } })).toBeNull();
  const action = fill(again, { figure: { value: 12, unit: "degF" }, reason: "Field" });
  expect(story.say("cockpit", action as Say).refusal).toBeUndefined();
  expect(story.state.checks.nightLeast).toMatchObject({ note: "Field", reading: { value: 12 } });
  expect(
    figureSpec(story.state, { ...again, need: { is: "figure", field: "reading", unit: "degF" } }, 0, words),
  ).not.toBeNull();
});
