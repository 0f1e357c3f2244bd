import { expect, it } from "vitest";
import { exchangeRows } from "../../shared/paper/exchange.ts";
import { say } from "../../shared/words/en.ts";
import { bo, given, Story } from "../spec/given.ts";

/** Returns what the chart shows of the last action. */
const drawn = (story: Story) => {
  const last = new Set(story.last.events.map((e) => e.seq));
  return exchangeRows(story.log, say).filter((r) => last.has(r.seq));
};

it("[PAN-14] a signal is an arrow from its giver to its addressees", () => {
  const story = new Story();
  story.does(bo, { type: "claimPost", post: "fireGuard" });
  story.send("fireGuard", "hold");
  expect(drawn(story)[0]).toMatchObject({
    is: "arrow",
    from: "fireGuard",
    to: ["cockpit", "groundPower", "supervisor"],
    tone: "hold",
  });
});

it("[PAN-14] an answer goes back to the giver, and a refusal is crossed out with its reason", () => {
  const story = new Story();
  story.say("fireGuard", { type: "claimPost", post: "fireGuard" });
  story.say("cockpit", { type: "claimPost", post: "cockpit" });
  const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
  story.say("cockpit", { type: "answer", signal: hold, answer: "received" });
  expect(drawn(story)[0]).toMatchObject({
    is: "answer",
    from: "cockpit",
    to: ["fireGuard"],
    text: "Received",
  });
  story.send("cockpit", "clearToStart", { engine: 3 });
  const [refused] = drawn(story);
  expect(refused).toMatchObject({ is: "refused", from: "cockpit", tone: "danger" });
  expect(refused?.text).toBe(
    "Refused: Clear to start number 3. Your post cannot do that. It is for: Supervisor.",
  );
});

it("[PAN-14] an observer's stop comes from a line of its own", () => {
  const story = new Story();
  story.does(bo, { type: "send", kind: "fire", engine: 2, place: "exhaust" });
  expect(drawn(story)[0]).toMatchObject({ is: "arrow", from: "none", tone: "danger" });
});

it("[PAN-14] the rows are in the record's order", () => {
  const story = new Story();
  for (const post of ["cockpit", "fireGuard", "groundPower", "supervisor"] as const)
    story.say(post, { type: "claimPost", post });
  story.send("cockpit", "hold");
  const rows = exchangeRows(story.log, say).map((r) => r.seq);
  expect(rows).toEqual([...rows].sort((a, b) => a - b));
  expect(rows.length).toBeGreaterThan(5);
});

it("[PAN-86] the row of an event is the same whether the events before it are worded with it or were worded before", () => {
  const { log } = given({}).upTo("starting");
  const whole = exchangeRows(log, say);
  expect(whole.length).toBeGreaterThan(20);
  for (let at = 1; at <= log.length; at += 1) {
    const before = exchangeRows(log.slice(0, at), say);
    expect([...before, ...exchangeRows(log, say, undefined, null, at)]).toEqual(whole);
  }
});
