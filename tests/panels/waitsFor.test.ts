import { expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { askView } from "../../web/posts/shared/askViews.ts";
import { english } from "../../web/words/english.ts";
import { spanish } from "../../web/words/spanish.ts";
import { given } from "../spec/given.ts";

it("[CLR-16, PAN-2] the supervisor's panel lists the conditions that are not met, then those asked for again, each with its post", () => {
  const story = given().upTo("starting");
  story.wait(880);
  story.requested(3);
  const waits = (words: typeof english) =>
    askedOf(story.state, "supervisor", story.now)
      .filter((a) => a.engine === 3)
      .map((a) => askView(story.state, a, story.now, AS_READ, words))[0]?.lacking;
  expect(waits(english)).toEqual([
    "Fire guard has not reported in place (fire guard)",
    "Arc not reported (fire guard)",
    "Brake report is old (cockpit)",
    "Electrical source known: reported 14:40 ago, asked for again (ground power, cockpit)",
  ]);
  expect(waits(spanish)?.at(-1)).toMatch(/: reportado hace 14:40, se pide otra vez \(/);
});
