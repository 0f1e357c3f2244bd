import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { postCells } from "../../web/pages/connectionWords.ts";
import type { Panel } from "../../web/posts/shared/model.ts";
import { asksForTest } from "../../web/senses/mayTest.ts";
import type { Tested } from "../../web/senses/tested.ts";
import { TitleBlock } from "../../web/ui/TitleBlock.tsx";
import { wordsNow } from "../../web/words/words.ts";
import { ada, given } from "../spec/given.ts";

const story = given({}).manned();
const words = wordsNow();
const me = { id: ada.id, name: ada.name, handle: ada.id, mayHold: [...ada.mayHold], demo: true };
const panel = (post: Panel["post"], state = story.state) =>
  ({ state, post, now: story.now, fresh: true, unrecorded: [], words, me }) as unknown as Panel;

it("[SNS-7] the test is asked for once, of a person who holds a post", () => {
  expect(asksForTest(panel("cockpit"), "no")).toBe(true);
  expect(asksForTest(panel(null), "no")).toBe(false);
  for (const tested of ["asked", "reached", "notReached"] as const)
    expect(asksForTest(panel("cockpit"), tested)).toBe(false);
  const over = story.copy();
  over.say("supervisor", { type: "abandon", reason: "weather" });
  expect(asksForTest(panel("cockpit", over.state), "no")).toBe(false);
});

/** The rest of the title block; `children` comes last in the block. */
const EMPTY = {
  rehearsal: false,
  aircraft: "",
  typeName: "",
  place: "",
  stage: "",
  stageStep: "",
  clock: "",
  connection: "",
  connectionIs: "live" as const,
  children: null,
  onPosts: () => {},
};

const title = (tested: Tested) =>
  renderToStaticMarkup(
    createElement<Parameters<typeof TitleBlock>[0]>(TitleBlock, {
      ...EMPTY,
      posts: postCells(story.state, null, me, "cockpit", story.now, true, tested, words),
    }),
  );

it("[SNS-7] until it was given there is a mark in the cell of the person's own post, and nowhere else", () => {
  for (const tested of ["no", "asked"] as const) {
    const html = title(tested);
    expect(html.split("title-mark")).toHaveLength(2);
    const [own = ""] = html.split("title-post").filter((cell) => cell.includes("title-mark"));
    expect(own).toContain('data-mine="true"');
    expect(own).toContain("test signal not given");
  }
  for (const tested of ["reached", "notReached"] as const) expect(title(tested)).not.toContain("title-mark");
});
