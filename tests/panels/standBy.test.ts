import { expect, it } from "vitest";
import { standByView } from "../../web/posts/fireGuard/standByView.ts";
import { planView } from "../../web/posts/shared/marks.ts";
import { wordsNow } from "../../web/words/words.ts";
import { given, type Story } from "../spec/given.ts";
import { STOPPED } from "../spec/stoppable.ts";

const words = wordsNow();
const seen = ({ state, now }: Story, facing: "nose" | "forward" = "nose") =>
  standByView(state, now, facing, words);

it("[PAN-35] without a reported place there is nothing to stand by at", () => {
  expect(seen(given({}).upTo("starting"))).toBeNull();
});

it("[PAN-35] the guard sees what the engine does, for how long, and stays while its start is under way", () => {
  const story = given({}).upTo("starting");
  const [first = 0, second = 0] = story.state.order;
  story.cranking(first);
  story.wait(5);
  expect(seen(story)).toMatchObject({
    n: first,
    mark: { word: "Cranking", turning: true, shape: "cranking" },
    time: "for 5 s",
    duty: `Stay at number ${first}.`,
    mayLeave: false,
    next: `Go to number ${second} when it is asked for.`,
    ways: [],
  });
});

it("[PAN-35] an engine that is stable needs no guard, and the next one is named with what turns on the way", () => {
  const story = given({}).upTo("starting");
  const [first = 0, second = 0] = story.state.order;
  story.started(first);
  expect(seen(story)).toMatchObject({
    n: first,
    duty: `You may leave number ${first}.`,
    mayLeave: true,
    next: `Go to number ${second} when it is asked for.`,
  });
  story.started(second);
  const third = story.state.order[2] ?? 0;
  expect(seen(story)?.next).toMatch(new RegExp(`number ${third}`));
  expect(seen(story)?.next).toMatch(new RegExp(`number ${first}`));
});

it("[PAN-35] after the last engine the ways to the chocks and the cart are shown", () => {
  const story = given({}).upTo("starting");
  for (const n of story.state.order) story.started(n);
  const view = seen(story);
  expect(view?.next).toBe("No more engines of the order wait for a start.");
  expect(view?.ways.map((w) => w.to)).toEqual(["To the chocks", "To the cart"]);
  for (const way of view?.ways ?? []) expect(way.words).toMatch(/never/);
});

it("[PAN-35] the way out leads ahead where an engine farther out turns, and the arrow follows the person's facing", () => {
  const story = given({}).upTo("starting");
  const outer = story.state.engines.length;
  story.send("fireGuard", "guardInPlace", { engine: outer - 1 });
  // Starboard is on the left hand of a drawing that faces the nose.
  expect(seen(story)?.out).toMatchObject({ turn: 270, words: expect.stringContaining("starboard") });
  expect(seen(story, "forward")?.out.turn).toBe(90);
  story.send("cockpit", "turning", { engine: outer });
  expect(seen(story)?.out).toMatchObject({ turn: 180, words: expect.stringContaining(`${outer} closes`) });
  expect(seen(story, "forward")?.out.turn).toBe(0);
});

it("[RTN-20] in a return the guard stays until the propeller is seen still, and is told which one to look at next", () => {
  const story = given({ type: STOPPED, purpose: "return", order: [2, 3, 1] }).upTo("stopping");
  story.send("fireGuard", "guardInPlace", { engine: 2 });
  const stays = { n: 2, duty: "Stay at number 2 until you see its propeller still.", mayLeave: false };
  expect(seen(story)).toMatchObject({ ...stays, next: "" });
  story.send("cockpit", "shutDown", { engine: 2 });
  expect(seen(story)).toMatchObject({ ...stays, next: "" });
  story.send("fireGuard", "propellerStill", { engine: 2 });
  expect(seen(story)).toMatchObject({ duty: "You may leave number 2.", mayLeave: true, ways: [] });
  expect(seen(story)?.next).toBe("Then look at the propeller of number 3.");
  for (const n of [3, 1]) story.stopped(n);
  // Number 4 came in stopped: nobody has looked at its propeller yet.
  expect(seen(story)?.next).toBe("Then look at the propeller of number 4.");
  story.send("fireGuard", "guardInPlace", { engine: 4 });
  expect(seen(story)).toMatchObject({ mayLeave: false, next: "" });
  story.send("fireGuard", "propellerStill", { engine: 4 });
  expect(seen(story)).toMatchObject({ mayLeave: true, next: "Every propeller was seen still." });
  expect(seen(story)?.ways).toHaveLength(2);
});

it("[RTN-2] an engine that came in stopped is marked as stopped and not seen still: it waits for no start", () => {
  const story = given({ type: STOPPED, purpose: "return", order: [2, 3, 4] }).upTo("arrival");
  const marked = () => planView(story.state, null, story.now, words).engines.find((e) => e.n === 1);
  expect(marked()).toMatchObject({ word: "Shut down", shape: "stopped", count: "not seen still" });
  story.upTo("stopping").send("fireGuard", "propellerStill", { engine: 1 });
  expect(marked()?.count).toBeNull();
});
