import { expect, it } from "vitest";
import { idleWords } from "../../web/posts/shared/idleWords.ts";
import { wordsNow } from "../../web/words/words.ts";
import { given } from "../spec/given.ts";

const words = wordsNow();

it("[PAN-59] a session abandoned with ground power on tells ground power to disconnect, and nobody else", () => {
  const story = given({}).upTo("starting");
  expect(story.state.groundPower.is).toBe("on");
  story.say("supervisor", { type: "abandon", reason: "Weather" });
  expect(story.state.stage).toBe("abandoned");
  const { state } = story;
  expect(idleWords({ state, post: "groundPower", words })).toMatch(/output off, unplug, cart away\.$/);
  expect(idleWords({ state, post: "cockpit", words })).toBe("This session was abandoned.");
  const off = { ...state, groundPower: { is: "unknown" } as const };
  expect(idleWords({ state: off, post: "groundPower", words })).toBe("This session was abandoned.");
});
