import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { FactOf } from "../../shared/protocol/events.ts";
import type { InstrumentReading } from "../../shared/protocol/instruments.ts";
import { stationNow } from "../../shared/weather/stationNow.ts";
import { EngineTable } from "../../web/posts/cockpit/EngineTable.tsx";
import { InstrumentsNow } from "../../web/posts/shared/InstrumentsNow.tsx";
import { FOUR } from "../spec/aircraft.ts";
import { given, START, type Story } from "../spec/given.ts";

const BY = { account: "0123456789abcdef", name: "Logger" };
const OIL = { ...FOUR.gauges.find((g) => g.id === "oilPressure"), min: 25, normalLow: 40, max: 100 };
const type = {
  ...FOUR,
  gauges: FOUR.gauges.map((g) => (g.id === "oilPressure" ? (OIL as typeof g) : g)),
};
const reads = (gauge: string, engine: number | undefined, value: number, unit: "psi" | "V" = "psi") => {
  const read: InstrumentReading = { gauge, value, least: value, most: value, unit };
  const readings = [engine === undefined ? read : { ...read, engine }];
  return { type: "instrumentsRead" as const, ...BY, from: START, to: START, readings };
};
const running = (): Story => {
  const story = given({ type }).manned().upTo("starting");
  story.running(3);
  return story;
};

/** Returns each row: its judgement, whether it is old, and its words. */
function rows({ state, now }: Story): [band: string, old: boolean, words: string][] {
  const html = renderToStaticMarkup(createElement(InstrumentsNow, { state, now }));
  return [...html.matchAll(/<li(.*?)>(.*?)<\/li>/g)].map(([, marks = "", inside = ""]) => [
    /data-(?:band|verdict)="(\w+)"/.exec(marks)?.[1] ?? "",
    marks.includes("data-old"),
    inside
      .replaceAll(/<[^>]+>/g, " ")
      .replaceAll(/\s+/g, " ")
      .trim(),
  ]);
}

/** Records it as read just now. */
const sent = (story: Story, fact: FactOf<"instrumentsRead">) =>
  story.sent({ ...fact, from: story.now, to: story.now });

describe("readings of instruments on a panel", () => {
  it("[INT-27] nothing is shown while no instrument has read anything", () => {
    expect(rows(running())).toEqual([]);
  });

  it("[INT-27] each is marked as an instrument's, judged by the gauge's marks, beside what a person read", () => {
    const story = running();
    story.oil(3, 62);
    story.wait(1);
    sent(story, reads("oilPressure", 3, 63));
    sent(story, reads("busVolts", undefined, 27, "V"));
    const [oil, bus, ...more] = rows(story);
    expect(more).toEqual([]);
    expect(oil).toEqual([
      "normal",
      false,
      expect.stringMatching(/^3 63 psi normal Instrument Logger Ada read 62 psi, 1 s ago$/),
    ]);
    expect(bus?.[2]).toMatch(/^27 V .*Instrument Logger Nobody has read it yet$/);
    sent(story, reads("oilPressure", 3, 101));
    expect(rows(story)[0]).toEqual(["over", false, expect.stringContaining("over the limit")]);
  });

  it("[INT-27] at the type's limit it is silent and no longer judged", () => {
    const story = running();
    sent(story, reads("oilPressure", 3, 63));
    story.wait(4.999);
    expect(rows(story)[0]?.slice(0, 2)).toEqual(["normal", false]);
    story.wait(0.001);
    expect(rows(story)[0]).toEqual(["", true, expect.stringContaining("63 psi silent for 5 s")]);
  });

  it("[INT-27] a figure that an instrument lowered is no person's, beside it or in the cockpit's table", () => {
    const story = running();
    sent(story.wait(1), reads("oilPressure", 3, 39));
    expect(rows(story)[0]?.[2]).toContain("Nobody has read it yet");
    const table = () => renderToStaticMarkup(createElement(EngineTable, story)).replaceAll("\u00a0", " ");
    expect(table()).toContain("39, by an instrument (0 s)");
    story.oil(3, 62);
    expect(table()).not.toContain("by an instrument");
  });
});

describe("the report of the field's station on a panel", () => {
  const report = (metar: string, observedAt = START) => ({
    type: "stationRead" as const,
    ...BY,
    metar,
    observedAt,
  });
  const judged = (wind: string, story = given({ type }).manned().upTo("secure"), later = 0) => {
    story.sent(report(`METAR XXNF 010900Z ${wind} 9999 18/11 Q1016`));
    const { observedAt } = story.state.station ?? { observedAt: 0 };
    return { story, verdict: stationNow(story.state, observedAt + later)?.verdict };
  };

  it("[INT-28] its wind is judged by the condition that judges a person's, and it ages from its observation", () => {
    const { max } = FOUR.wind;
    expect(judged("27008KT").verdict).toBe("within");
    expect(judged(`270${max.value + 1}KT`).verdict).toBe("over");
    const fresh = FOUR.timing.weather.value * 1000;
    expect(judged("27008KT", undefined, fresh - 1).verdict).toBe("within");
    expect(judged("27008KT", undefined, fresh).verdict).toBe("stale");
    const { story } = judged("/////KT");
    expect(stationNow(story.state, START)).toMatchObject({ air: null, verdict: "unknown" });
  });

  it("[INT-28] it is shown as it came, with its wind in words, and answers no ask", () => {
    const story = given({ type }).manned().upTo("secure");
    const { weather } = story.state;
    judged("27018G25KT", story);
    const [shown] = rows(story);
    expect(shown?.[2]).toContain("Wind from 270°, 18 kt, gusts 25 kt, 18 °C, QNH 1016 hPa");
    expect(shown?.[2]).toContain("Instrument Logger, seen");
    expect(shown?.[2]).toContain("METAR XXNF 010900Z 27018G25KT 9999 18/11 Q1016");
    expect(story.state.weather).toEqual(weather);
  });
});
