import { expect, it } from "vitest";
import { postsNow } from "../../web/posts/supervisor/postsNow.ts";
import { labelOf } from "../../web/ui/charts/ExchangeChart.tsx";
import { given, type Story } from "../spec/given.ts";

const line = ({ state, now }: Story) => postsNow(state, now);

it("[PAN-36] every post is in the line once, with its holder and what it owes", () => {
  const story = given({}).upTo("starting");
  const first = story.state.order[0] ?? 0;
  story.requested(first);
  const posts = line(story);
  expect(posts.map((p) => p.post).sort()).toEqual(["cockpit", "fireGuard", "groundPower", "supervisor"]);
  const guard = posts.find((p) => p.post === "fireGuard");
  expect(guard).toMatchObject({ holder: "Bo", owes: [expect.objectContaining({ say: "guardInPlace" })] });
});

it("[PAN-36] the start waits for the post that owns what the requested engine lacks, and only for that one", () => {
  const story = given({}).upTo("starting");
  const first = story.state.order[0] ?? 0;
  story.requested(first);
  expect(line(story).flatMap((p) => (p.blocks ? [p.post] : []))).toEqual(["fireGuard"]);
  story.guarded(first);
  expect(line(story).flatMap((p) => (p.blocks ? [p.post] : []))).toEqual(["supervisor"]);
});

it("[PAN-36] the latest stands first: less time left, then a longer wait, then posts that owe nothing", () => {
  const story = given({}).upTo("starting");
  const first = story.state.order[0] ?? 0;
  story.cleared(first);
  const posts = line(story);
  expect(posts[0]?.post).toBe("cockpit");
  expect(posts[0]?.left).toBeGreaterThan(0);
  const ranks = posts.map((p) => (p.owes.length === 0 ? 2 : p.left === null ? 1 : 0));
  expect(ranks).toEqual([...ranks].sort());
});

it("[PAN-37] a label starts at the one who speaks, and runs the other way only where that leaves room for it", () => {
  const width = 600;
  expect(labelOf("Arc clear", 200, [500], width)).toMatchObject({
    x: 208,
    anchor: "start",
    text: "Arc clear",
  });
  expect(labelOf("Arc clear", 500, [200], width)).toMatchObject({ x: 492, anchor: "end", text: "Arc clear" });
  const long = "Number 3 was shut down without oil pressure";
  expect(labelOf(long, 180, [110], width)).toMatchObject({ x: 188, anchor: "start", text: long });
  expect(labelOf(long, 590, [595], width)).toMatchObject({ x: 582, anchor: "end", text: long });
});
