import { describe, expect, it } from "vitest";
import { OLD_MS, tracesOf, WINDOW_MS } from "../../web/posts/cockpit/traces.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";

/** Returns two readings of one engine's oil pressure and one of the bus. */
function readings() {
  const story = given({}).upTo("starting");
  const read = (gauge: string, value: number, unit: string, engine?: number) =>
    story.say("cockpit", {
      type: "reading",
      gauge,
      reading: { value, unit },
      ...(engine === undefined ? {} : { engine }),
    } as Parameters<typeof story.say>[1]);
  return { story, read };
}

describe("readings over time", () => {
  it("[PAN-20] have one strip for each gauge and engine, oldest reading first, in the gauge's unit", () => {
    const { story, read } = readings();
    const from = story.now;
    read("oilPressure", 30, "psi", 2);
    story.wait(20);
    read("oilPressure", 60, "psi", 2);
    read("oilPressure", 60, "psi", 1);
    const traces = tracesOf(story.log, story.state.type, story.state.order, story.now).filter((t) =>
      t.key.startsWith("oilPressure"),
    );
    // In the order of starting, not of numbers.
    expect(traces.map((t) => t.engine)).toEqual(story.state.order.filter((n) => n < 3));
    const two = traces.find((t) => t.engine === 2);
    expect(two?.points).toEqual([
      { at: from, value: 30 },
      { at: from + 20_000, value: 60 },
    ]);
  });

  it("[PAN-20] leave out readings older than the window, and mark a reading old before that", () => {
    const { story, read } = readings();
    read("oilPressure", 30, "psi", 2);
    const drawn = (now: number) =>
      tracesOf(story.log, story.state.type, story.state.order, now).filter((t) => t.engine === 2).length;
    expect(drawn(story.now + WINDOW_MS)).toBe(1);
    expect(drawn(story.now + WINDOW_MS + 1)).toBe(0);
    expect(OLD_MS).toBeLessThan(WINDOW_MS);
  });

  it("[PAN-20, CRD-5] fill themselves from the answers of the card", () => {
    const source = { basis: "invented", text: "for tests" } as const;
    const kind = { is: "range", gauge: "busVolts", min: 20 } as const;
    const item = {
      id: "bus",
      words: "Bus volts",
      moment: "beforeStart",
      post: "cockpit",
      kind,
      source,
    } as const;
    const story = given({ type: { ...FOUR, card: [item] } }).upTo("starting");
    story.say("cockpit", { type: "answerCard", item: "bus", reading: { value: 25, unit: "V" } });
    const traces = tracesOf(story.log, story.state.type, story.state.order, story.now);
    expect(traces.find((t) => t.key.startsWith("busVolts"))?.points).toEqual([{ at: story.now, value: 25 }]);
  });

  it("[PAN-20, PWR-9] do not draw the lowest volts of an attempt as the volts of now", () => {
    const story = given({}).upTo("starting");
    const drawn = () =>
      tracesOf(story.log, story.state.type, story.state.order, story.now).find((t) => t.key === "groundPower")
        ?.points.length;
    const before = drawn();
    story.send("groundPower", "powerConnected", { engine: 3, volts: { value: 18, unit: "V" } });
    expect(drawn()).toBe(before);
  });
});
