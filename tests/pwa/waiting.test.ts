import { expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { type ConnectionView, NOTHING } from "../../web/net/connectionView.ts";
import { unreported } from "../../web/net/useShown.ts";
import { connectionWords, staleWords, waitingWords } from "../../web/pages/connectionWords.ts";
import { makesNothingLessSafe } from "../../web/posts/shared/safety.ts";
import { text } from "../../web/words/en/text.ts";
import { given } from "../spec/given.ts";

type Sent = ConnectionView["outgoing"][number];
const sent = (is: "sending" | "lapsed" | "recorded", i: number): Sent => ({
  id: String(i),
  session: "s",
  action: { type: "present" },
  at: i,
  status: is === "recorded" ? { is, seq: 1 } : { is, tries: 0 },
});
const view = (over: Partial<ConnectionView>): ConnectionView => ({
  ...NOTHING,
  phase: "lost",
  lastHeard: 10_000,
  session: "s",
  ...over,
});

it("[PWA-9] the link is said in words: when the server was last heard, what waits, and to hold", () => {
  const outgoing = [sent("sending", 1), sent("lapsed", 2), sent("recorded", 3), sent("sending", 4)];
  const words = staleWords(view({ outgoing }), 17_400, text);
  expect(words).toMatch(/^Offline, last heard 7 s ago; three signals waiting\. Hold\./);
  expect(connectionWords(view({ phase: "live" }), 16_000, text)).toBe("Linked");
  expect(connectionWords(view({ phase: "live" }), 16_001, text)).toBe("Silent, last heard 6 s ago");
});

it("[PWA-9] what waits is counted in words", () => {
  const n = (count: number) =>
    waitingWords(
      Array.from({ length: count }, (_, i) => sent("sending", i)),
      text,
    );
  expect([n(0), n(1), n(2), n(12)]).toEqual([
    null,
    "one signal waiting",
    "two signals waiting",
    "12 signals waiting",
  ]);
});

it("[PAN-13] nothing that sets aside, authorises, clears or counts goes without a fresh link", () => {
  const must = [
    { type: "override", condition: "windWithinLimits", engine: 3, reason: "x" },
    { type: "countBlades", engine: 3, blades: 12, resistance: false },
    { type: "answer", signal: 4, answer: "authorise" },
    { type: "answer", signal: 4, answer: "readBack", engine: 3 },
    { type: "answer", signal: 4, answer: "willComply" },
    { type: "send", kind: "clearToStart", engine: 3 },
    { type: "send", kind: "release", ref: 4 },
    { type: "send", kind: "handlePropeller", engine: 3 },
    { type: "closeDefect", defect: "d", reason: "x" },
    { type: "shelveAlert", alert: 3, minutes: 5 },
    { type: "claimPost", post: "cockpit" },
  ] as const;
  for (const action of must) expect(makesNothingLessSafe(action), JSON.stringify(action)).toBe(false);
});

it("[PAN-13] of all that is asked through a start only what lets nothing begin goes without a fresh link", () => {
  const story = given().upTo("starting").requested(3).guarded(3);
  story.send("supervisor", "clearToStart", { engine: 3 });
  story.answer("cockpit", story.openSignal("clearToStart"), "readBack", 3);
  const goes = POSTS.flatMap((post) => askedOf(story.state, post, story.now))
    .flatMap((ask) => ask.choices)
    .filter((choice) => makesNothingLessSafe(choice.draft));
  for (const { draft } of goes)
    expect(JSON.stringify(draft)).not.toMatch(/cranking|clear|authorise|started|caught/i);
});

it("[PWA-10] a device names what its post was sent and nobody's device has said, and nothing once it is on the record", () => {
  const story = given().upTo("starting").requested(3);
  const ids = unreported(story.state, "supervisor");
  expect(ids).toContain(story.openSignal("readyToStart"));
  story.say("supervisor", { type: "delivered", signals: ids });
  expect(unreported(story.state, "supervisor")).toEqual([]);
  expect(unreported(story.state, "cockpit")).not.toContain(story.openSignal("readyToStart"));
});
