import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { channelFaults } from "../../shared/house/channels.ts";
import type { FactOf } from "../../shared/protocol/events.ts";
import { instrumentNow } from "../../shared/readings/instruments.ts";
import { type Sample, sampleJudge } from "../../shared/readings/judgeSample.ts";
import { decideStation } from "../../shared/weather/station.ts";
import { FOUR } from "./aircraft.ts";
import { given, START, type Story } from "./given.ts";

const reads = (
  gauge: string,
  engine: number | undefined,
  value: number,
  unit: "psi" | "degC" | "V" = "psi",
): FactOf<"instrumentsRead"> => ({
  type: "instrumentsRead",
  ...{ account: "0123456789abcdef", name: "Logger", from: START, to: START },
  readings: [{ gauge, ...(engine === undefined ? {} : { engine }), value, least: value, most: value, unit }],
});

const caught = (): Story => {
  const story = given().manned().upTo("starting");
  story.cranking(3);
  story.wait(5).send("cockpit", "caught", { engine: 3 });
  return story;
};
const asked = (story: Story) => askedOf(story.state, "cockpit", story.now);

/** Records it as read just now. */
const sent = (story: Story, fact: FactOf<"instrumentsRead">) =>
  story.sent({ ...fact, from: story.now, to: story.now });

describe("an instrument", () => {
  it("[INT-11] answers nothing that a person is asked: the oil pressure of an engine that caught stays unread", () => {
    const story = caught();
    const before = asked(story);
    sent(story, reads("oilPressure", 3, 60));
    expect(story.life(3)).toBe("caught");
    expect(asked(story)).toEqual(before);
    expect(story.state.engines[2]?.readings).toEqual({});
    story.wait(6);
    expect(story.alerts).toContain("oilFirstLate");
    story.oil(3, 60);
    expect(story.life(3)).toBe("running");
  });

  it("[INT-12] lowers as a person does: oil pressure that is gone raises the alarm, and only a person's reading ends it", () => {
    const story = given().manned().upTo("starting");
    story.running(3);
    const lost = () => story.state.alerts.some((a) => a.kind === "oilLost" && a.active);
    sent(story, reads("oilPressure", 3, 41));
    expect(lost()).toBe(false);
    sent(story.wait(1), reads("oilPressure", 3, 39));
    expect(lost()).toBe(true);
    expect(story.state.engines[2]?.readings.oilPressure).toMatchObject({ value: 39, name: "Logger" });
    sent(story.wait(1), reads("oilPressure", 3, 60));
    expect(lost()).toBe(true);
    story.oil(3, 60);
    expect(lost()).toBe(false);
  });

  it("[INT-13] is shown as now until the type's limit, and replays to the same state", () => {
    const story = given().manned().upTo("secure");
    sent(story, reads("busVolts", undefined, 27, "V"));
    const now = (ms: number) => instrumentNow(story.state, "busVolts", undefined, story.now + ms)?.value;
    expect([now(0), now(4_999), now(5_000)]).toEqual([27, 27, undefined]);
    expect(story.replayed()).toEqual(story.state);
  });
});

describe("a sample", () => {
  const CHANNELS = [
    { channel: "OP3", gauge: "oilPressure", engine: 3, unit: "psi" as const, quality: "1 psi" },
    { channel: "BUS", gauge: "busVolts", engine: null, unit: "V" as const, quality: null },
  ];
  const good: Sample = { channel: "OP3", engine: 3, time: START, value: 55, unit: "psi" };
  const { instrument: _limit, ...timing } = FOUR.timing;
  const bare = { ...FOUR, timing };
  const fault = (more: Partial<Sample>, now = START, type = FOUR) => {
    const judged = sampleJudge(CHANNELS, type)({ ...good, ...more }, now);
    return judged.ok ? judged.band : judged.fault;
  };

  it("[INT-14] is judged by its channel, unit, scale and age, and a type without a limit of age takes none", () => {
    expect(fault({})).toBe("normal");
    expect(fault({ channel: "OP4" })).toBe("unknownChannel");
    expect(fault({ engine: null })).toBe("unknownChannel");
    expect(fault({ unit: "bar" })).toBe("wrongUnit");
    expect([fault({ value: 200 }), fault({ value: 200.1 })]).toEqual(["normal", "outOfScale"]);
    expect([fault({}, START + 4_999), fault({}, START + 5_000)]).toEqual(["normal", "stale"]);
    expect([fault({ time: START + 1_000 }), fault({ time: START + 1_001 })]).toEqual(["normal", "ahead"]);
    expect(fault({}, START, bare)).toBe("noLimit");
  });

  it("[INT-15] goes to a gauge of the type, in its unit, and one gauge has one channel", () => {
    const faults = (more: object, with2: object[] = []) =>
      channelFaults(
        { id: "CH-TST", channels: [{ ...CHANNELS[0], ...more }, ...with2] as typeof CHANNELS },
        FOUR,
      ).map((f) => f.path);
    expect(faults({})).toEqual([]);
    expect(faults({ gauge: "none" })).toEqual(["channels.0.gauge"]);
    expect(faults({ unit: "bar" })).toEqual(["channels.0.unit"]);
    expect(faults({ engine: null })).toEqual(["channels.0.engine"]);
    expect(faults({ engine: 5 })).toEqual(["channels.0.engine"]);
    expect(faults({}, [{ ...CHANNELS[0], channel: "OTHER" }])).toEqual(["channels.1.channel"]);
    expect(faults({}, [{ ...CHANNELS[1], engine: 1 }])).toEqual(["channels.1.engine"]);
  });
});

describe("a field's station", () => {
  const BY = { account: "0123456789abcdef", name: "Tower" };
  // 1 June 2026, 09:00 UTC is START.
  const CALM = "METAR XXNF 010850Z 27008KT 9999 FEW030 18/11 Q1016";
  const STORM = "METAR XXNF 010855Z 27018G30KT 9999 TS FEW030CB 18/11 Q1016";

  it("[INT-16] is kept beside the weather people recorded, and thunder in its report counts at once", () => {
    const story = given().manned().upTo("secure");
    const weather = story.state.weather;
    const send = (metar: string) => {
      const verdict = decideStation(story.state, metar, BY, story.now);
      if (verdict.is === "news") story.sent(verdict.fact);
      return verdict.is;
    };
    expect(send(CALM)).toBe("news");
    expect(story.state.station).toMatchObject({ metar: CALM, name: "Tower" });
    expect(story.state.weather).toEqual(weather);
    expect(send(CALM)).toBe("known");
    expect(story.state.flashes ?? []).toEqual([]);
    expect(send(STORM)).toBe("news");
    expect(story.state.flashes).toMatchObject([{ miles: null, person: null }]);
    expect(send("METAR XXNF 010855Z 27018KT 9999 Q9999")).toBe("faulty");
    expect(story.replayed()).toEqual(story.state);
  });
});
