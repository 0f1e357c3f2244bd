import { describe, expect, it } from "vitest";
import { figuresNow } from "../../shared/figures/all.ts";
import { voltTraceFigure } from "../../shared/figures/voltTrace.ts";
import { readTraceText } from "../../shared/models/electrical/traceText.ts";
import { voltsLog } from "../../shared/paper/figureLog.ts";
import { momentsOf } from "../../shared/paper/moments.ts";
import { TRACE_SAMPLES } from "../../shared/protocol/trace.ts";
import { say } from "../../shared/words/en.ts";
import { RICH } from "../figures/rich.ts";
import { given, type Story } from "./given.ts";

const powered = () => given({ type: RICH }).manned().upTo("starting");
/** Returns 28 V every 20 ms for two seconds, except where `put` gives volts. */
const course = (put: (ms: number) => number | null = () => null) =>
  Array.from({ length: 101 }, (_, i): [number, number] => [i * 20, put(i * 20) ?? 28]);
const give = (
  story: Story,
  samples: [number, number][],
  more: { cranking?: { from: number; to: number }[]; endedAgoMs?: number } = {},
) => story.say("groundPower", { type: "giveVoltTrace", samples, cranking: [], endedAgoMs: 0, ...more });
const figure = (story: Story) => voltTraceFigure(story.state, story.now);

describe("a meter's record of ground power", () => {
  it("[PWR-11] is within its limits, or names the time, the side and the volts at which it left them", () => {
    const story = powered();
    give(story, course());
    expect(figure(story)).toMatchObject({ value: "in limits", verdict: "good" });
    // 30 V from 1.00 s on: out of the steady band (26 to 29) at 0.99 s, half way up from 28 V at 0.98 s. The curve is
    // down to 29 V 82.5 ms later; from 30 V at 1.00 s it is passed where 50 V falls by 0.3 V a ms to 30 V: 79.17 ms.
    give(
      story,
      course((ms) => (ms >= 1000 ? 30 : null)),
    );
    expect(figure(story)).toMatchObject({
      value: "left at 1.069 s",
      verdict: "bad",
      detail: "30.0 V, over 30.0 V",
    });
  });

  it("[PWR-11] is judged by the starting band while an engine cranked: 12 V is within it, and a dip at another time is not", () => {
    const dip = course((ms) => (ms >= 500 && ms <= 900 ? 12 : null));
    const cranked = powered();
    give(cranked, dip, { cranking: [{ from: 480, to: 920 }] });
    expect(figure(cranked)?.verdict).toBe("good");
    const not = powered();
    give(not, dip);
    expect(figure(not)).toMatchObject({ verdict: "bad", detail: expect.stringContaining("under") });
  });

  it("[PWR-11] names reversed polarity before everything else", () => {
    const story = powered();
    give(
      story,
      course((ms) => (ms === 1000 ? -28 : null)),
    );
    expect(figure(story)).toMatchObject({ value: "REVERSED", verdict: "bad" });
  });

  it("[PWR-11] has no verdict, with the reason, if it is too sparse, too old or missing", () => {
    const story = powered();
    give(story, [
      [0, 28],
      [50, 28],
      [100.3, 28],
    ]);
    expect(figure(story)).toMatchObject({ value: null, verdict: "unknown" });
    expect(figure(story)?.caution).toMatch(/nothing is known between 50 and 100.3 ms/);
    give(story, course(), { endedAgoMs: 899_000 });
    expect(figure(story)?.verdict).toBe("good");
    story.wait(1).power();
    expect(figure(story)?.verdict).toBe("good");
    story.waitMs(1);
    expect(figure(story)).toMatchObject({ value: null, verdict: "unknown" });
    expect(figure(story)?.caution).toMatch(/ended more than 900 s ago/);
  });

  it("[PWR-11] is made of single readings too, which are too far apart for a verdict", () => {
    const story = powered();
    expect(figure(story)?.caution).toMatch(/at least two samples.*Enter a meter's record/);
    story.wait(20).power();
    expect(figure(story)).toMatchObject({ value: null, verdict: "unknown" });
    expect(figure(story)?.caution).toMatch(/nothing is known between 0 and \d+ ms/);
    story.power(-27);
    expect(story.last.refusal).toBeDefined();
  });

  it("[PWR-11] is shown to ground power and cockpit, and printed in the record with its verdict", () => {
    const story = powered();
    give(
      story,
      course((ms) => (ms >= 1000 ? 30 : null)),
    );
    const shown = (post: "cockpit" | "fireGuard" | "groundPower" | "supervisor") =>
      figuresNow(story.state, post, story.now).some((f) => f.id === "voltTrace");
    expect([shown("groundPower"), shown("cockpit"), shown("fireGuard")]).toEqual([true, true, false]);
    const row = voltsLog(momentsOf(story.log), say).find((r) => r.where.startsWith("Ground power over time"));
    expect(row).toMatchObject({
      where: "Ground power over time, 101 samples",
      figure: "left at 1.069 s: 30.0 V, over 30.0 V",
      good: false,
    });
  });

  it("[PWR-10] is refused out of order, and with cranking that does not lie in it", () => {
    const story = powered();
    give(story, [
      [0, 28],
      [20, 28],
      [20, 28],
    ]);
    expect(story.last.refusal?.reason).toBe("outOfRange");
    give(story, course(), { cranking: [{ from: 500, to: 2001 }] });
    expect(story.last.refusal?.reason).toBe("outOfRange");
    give(story, course(), { cranking: [{ from: 500, to: 500 }] });
    expect(story.last.refusal?.reason).toBe("outOfRange");
    give(story, course(), { cranking: [{ from: 500, to: 2000 }] });
    expect(story.last.refusal).toBeUndefined();
    expect(story.state.voltTrace?.endedAt).toBe(story.now);
  });

  it("[PWR-10] ends with the power that it was taken of", () => {
    const story = powered();
    give(story, course());
    story.send("cockpit", "disconnectPower");
    story.send("groundPower", "powerDisconnected");
    expect(story.state.groundPower.is).toBe("off");
    expect([story.state.voltTrace, figure(story)]).toEqual([undefined, null]);
  });
});

describe("a record as text", () => {
  const read = (text: string) => readTraceText(text, TRACE_SAMPLES);
  it("[PWR-10] has seconds and volts, separated by comma, semicolon, tab or space, with or without a heading", () => {
    const same = {
      ok: true,
      value: [
        { ms: 0, volts: 28 },
        { ms: 20, volts: 27.5 },
      ],
    };
    for (const text of [
      "0,28\n0.02,27.5",
      "s V\n0 28\n0.02  27.5\n",
      "0;28\r\n0,02;27,5",
      "0\t28\n\n0,02\t27,5",
    ])
      expect(read(text), text).toEqual(same);
  });

  it.each([
    ["0 28\n0.02", /line 2: seconds and volts/],
    ["0 28\n0.02 twenty", /line 2: seconds and volts/],
    ["0 28 1\n1 28 1", /line 1: seconds and volts/],
    ["0 28\n\n0 27", /line 3: the time does not rise/],
    ["-1 28\n0 28", /line 1: -1 s is outside/],
    ["0 28", /at least two samples/],
    ["", /at least two samples/],
    [
      Array.from({ length: TRACE_SAMPLES + 1 }, (_, i) => `${i / 100} 28`).join("\n"),
      /more than 2000 samples/,
    ],
  ])("[PWR-10] is refused with the number of its first bad line", (text, why) => {
    const found = read(text);
    expect(found.ok ? "" : found.why).toMatch(why);
  });
});
