import { expect, it } from "vitest";
import { guardWords } from "../../web/posts/fireGuard/guardWords.ts";
import { conditionsFor } from "../../web/posts/supervisor/conditionsFor.ts";
import { laterWords } from "../../web/words/later.ts";
import { wordsNow } from "../../web/words/words.ts";
import { given, type Story } from "../spec/given.ts";

const words = wordsNow();
const guardSees = ({ state, now }: Story) => guardWords({ state, now, words }).join(" ");
const titleOf = ({ state, now }: Story) =>
  conditionsFor(state, now, laterWords("en").supervisor)?.title ?? null;

it("[PAN-30] the guard's panel says that the start used the report of a clear arc", () => {
  const story = given({}).upTo("starting").requested(3);
  expect(guardSees(story)).toBe("");
  story.send("fireGuard", "guardInPlace", { engine: 3 });
  expect(guardSees(story)).toContain("Arc not reported.");
  story.send("fireGuard", "arcClear", { engine: 3 });
  expect(guardSees(story)).toContain("Arc clear, said");
  const clearance = story.send("supervisor", "clearToStart", { engine: 3 }).events[0]?.seq ?? 0;
  story.answer("cockpit", clearance, "readBack", 3);
  story.send("cockpit", "cranking", { engine: 3, ref: clearance });
  expect(guardSees(story)).toContain("was used by the start of number 3");
  expect(guardSees(story)).not.toContain("not reported");
});

it("[PAN-30] an engine that turns without a report of a clear arc used none", () => {
  const story = given({}).upTo("starting");
  story.send("fireGuard", "guardInPlace", { engine: 3 });
  story.send("cockpit", "turning", { engine: 3 });
  expect(guardSees(story)).toContain("Arc not reported.");
  const left = given({}).upTo("starting").guarded(3);
  left.send("fireGuard", "guardAway");
  left.wait(1).send("fireGuard", "guardInPlace", { engine: 3 });
  left.wait(1).send("cockpit", "turning", { engine: 3 });
  expect(guardSees(left)).toContain("Arc not reported.");
});

it("[PAN-30] a guard's report that is too old for a clearance is called old", () => {
  const story = given({}).upTo("starting").guarded(3);
  expect(guardSees(story)).not.toContain("old");
  story.wait(story.state.type.timing.arcClear.value);
  expect(guardSees(story)).toMatch(/Arc clear, said .* That is old\./);
});

it("[PAN-30] the supervisor's panel names the engine after the one that is being started as next", () => {
  const story = given({}).upTo("starting");
  const [first = 0, second = 0] = story.state.order;
  expect(titleOf(story)).toBe(`Number ${first} is next: what its clearance needs`);
  story.requested(first);
  expect(titleOf(story)).toBe(`Number ${first}: what its clearance needs`);
  const cranked = given({}).upTo("starting");
  cranked.running(first);
  expect(titleOf(cranked)).toBe(`After number ${first} comes number ${second}: what its clearance needs`);
  for (const [i, n] of story.state.order.entries()) {
    if (i === story.state.order.length - 1) cranked.cranking(n);
    else if (i === 0) cranked.wait(20).send("cockpit", "started", { engine: n });
    else cranked.started(n);
  }
  expect(titleOf(cranked)).toBeNull();
});
