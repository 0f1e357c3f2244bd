import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Outgoing } from "../../web/net/outgoing.ts";
import { figureSpec } from "../../web/posts/shared/figures.ts";
import { foreseenWords } from "../../web/posts/shared/foreseenWords.ts";
import { sentRows } from "../../web/posts/shared/sentRows.ts";
import { FigureEntry } from "../../web/ui/FigureEntry.tsx";
import { asksFirst, BLANK, entered, stepped } from "../../web/ui/figureEntry.ts";
import type { FigureSpec } from "../../web/ui/figureSpec.ts";
import { WeatherEntry } from "../../web/ui/WeatherEntry.tsx";
import { gustStepped, lacksReading, UNREAD, windStepped } from "../../web/ui/weatherByHand.ts";
import { wordsNow } from "../../web/words/words.ts";
import { CREW, given, type Story } from "../spec/given.ts";

const words = wordsNow();
const markup = (of: ReturnType<typeof createElement>) => renderToStaticMarkup(of);
const firstKey = (html: string) => /<button[^>]*class="answer"[^>]*>[^<]*/.exec(html)?.[0] ?? "";

const SPEC: FigureSpec = {
  label: "Volts",
  unit: "V",
  from: 0,
  to: 40,
  step: 0.1,
  start: 26,
  before: null,
  startWords: "",
  low: 24,
  high: 28,
};
const drawn = (spec: FigureSpec) =>
  markup(
    createElement(FigureEntry, {
      spec,
      word: "Record",
      disabled: false,
      follows: () => [],
      onEnter: () => {},
      onBack: () => {},
    }),
  );

describe("an entry of a figure", () => {
  it("[PAN-12] starts blank, with an earlier reading and without one, and records nothing then", () => {
    for (const before of [null, 27.5]) {
      const html = drawn({ ...SPEC, before });
      expect(html).toContain('<span class="entry-number">–</span>');
      expect(firstKey(html)).toContain("disabled");
      expect(firstKey(html)).toContain("Set what the gauge shows");
      expect(html.includes("Reads 27.5 V again")).toBe(before !== null);
    }
  });

  it("[PAN-12] steps from a figure that is no limit, whatever bounds the type gives", () => {
    expect(stepped(SPEC, BLANK, 1).value).toBe(26.1);
    const story = given({}).upTo("starting");
    for (const post of ["cockpit", "groundPower"] as Post[])
      for (const ask of askedOf(given({}).upTo("secure").state, post, story.now))
        for (const choice of ask.choices) {
          const spec = figureSpec(given({}).upTo("secure").state, choice, story.now, words);
          if (!spec) continue;
          for (const limit of [spec.low, spec.high, spec.from, spec.to]) expect(spec.start).not.toBe(limit);
        }
  });

  it("[PAN-32] asks once more only before a figure that would set something off", () => {
    const at = (value: number) => entered(SPEC, value);
    expect(asksFirst(SPEC, at(27.5), [])).toBe(false);
    expect(asksFirst(SPEC, at(29.5), ["Alert"])).toBe(true);
    // Out of the band, but nothing follows: oil pressure that has only just come up.
    expect(asksFirst(SPEC, at(20), [])).toBe(false);
    // Not known what follows: the band decides.
    expect(asksFirst(SPEC, at(29.5), null)).toBe(true);
    expect(asksFirst(SPEC, at(27.5), null)).toBe(false);
    // Asked already: this touch sends.
    expect(asksFirst(SPEC, { value: 29.5, asking: true }, ["Alert"])).toBe(false);
    expect(stepped(SPEC, { value: 29.5 }, -1).asking).toBe(false);
  });
});

/** Returns what a figure would set off, as this post's panel says it. */
function follows(story: Story, post: Post, action: Action): string[] {
  const { id, name, mayHold } = CREW[post];
  const me = { id, name, handle: id, mayHold: [...mayHold], demo: true };
  return foreseenWords({ state: story.state, now: story.now, post, me, words }, action);
}
const volts = (value: number): Action => ({
  type: "send",
  kind: "powerConnected",
  channel: "panel",
  volts: { value, unit: "V" },
});

describe("what a figure would set off", () => {
  it("[PAN-32] is what the server then does: the alert, its drill and the end of a clearance", () => {
    const story = given({}).upTo("starting");
    story.readBack(3);
    expect(follows(story, "groundPower", volts(27.5))).toEqual([]);
    const said = follows(story, "groundPower", volts(35));
    expect(said).toContain("It counts as a report that something is not right");
    expect(said).toContain("The clearance of number 3 ends");
    expect(said.some((s) => s.startsWith("Alert to ") && s.includes("volts are out of range"))).toBe(true);
    const drills = said.filter((s) => s.startsWith("The drill opens at every post: "));
    const before = story.state.seq;
    story.say("groundPower", volts(35));
    const facts = story.log.filter((e) => e.seq > before).map((e) => e.fact.type);
    expect(facts).toContain("clearanceVoid");
    expect(facts).toContain("alertRaised");
    expect(drills).toHaveLength(facts.filter((f) => f === "drillStarted").length);
  });

  it("[PAN-32] is nothing for oil pressure that comes up, though it is below its normal band", () => {
    const story = given({}).upTo("starting").caught(3);
    const oil = (value: number): Action => ({
      type: "reading",
      gauge: "oilPressure",
      engine: 3,
      reading: { value, unit: "psi" },
    });
    expect(follows(story, "cockpit", oil(20))).toEqual([]);
    expect(story.wait(3).oil(3, 20).refusal).toBeUndefined();
  });

  it("[PAN-32] changes nothing in the state it is worked out from", () => {
    const story = given({}).upTo("starting");
    const before = JSON.stringify(story.state);
    follows(story, "groundPower", volts(35));
    expect(JSON.stringify(story.state)).toBe(before);
  });
});

describe("a figure that was sent", () => {
  const row = (story: Story, action: Action, at: number) => {
    const item: Outgoing = {
      id: "x",
      session: "s",
      action,
      at,
      status: { is: "recorded", seq: story.state.seq },
    };
    return sentRows(story.state, [item], AS_READ, words, story.now)[0];
  };

  it("[PAN-32] can be corrected by its sender: the same figure read anew, which is what counts then", () => {
    const story = given({}).upTo("starting");
    story.say("groundPower", volts(35));
    expect(story.state.alerts.some((a) => a.kind === "groundPowerOutOfRange" && a.active)).toBe(true);
    const key = row(story, volts(35), story.now)?.correct;
    if (!key) throw new Error("no key");
    expect(figureSpec(story.state, key.choice, story.now, words)?.before).toBe(35);
    const action = fill(key.choice, { figure: { value: 27.5, unit: "V" } });
    expect(action).toEqual(volts(27.5));
    story.say("groundPower", action as Action);
    expect(story.state.alerts.some((a) => a.kind === "groundPowerOutOfRange" && a.active)).toBe(false);
    expect(row(story, volts(35), story.now - 61_000)?.correct).toBeNull();
    expect(row(story, { type: "present" }, story.now)?.correct).toBeNull();
  });
});

describe("weather by hand", () => {
  it("[PAN-12] starts blank, and needs the wind and the gusts, or that there are none", () => {
    const html = markup(
      createElement(WeatherEntry, {
        now: 0,
        mostAge: 1,
        first: "hand",
        disabled: false,
        onEnter: () => {},
        onBack: () => {},
      }),
    );
    expect(firstKey(html)).toContain("disabled");
    expect(html.split(`<span class="weather-number">–</span>`)).toHaveLength(4);
    expect(lacksReading(UNREAD)).toBe("wind");
    expect(lacksReading({ ...UNREAD, windKt: 0 })).toBe("gusts");
    expect(lacksReading({ ...UNREAD, windKt: 10, gustKt: "none" })).toBeNull();
    expect(lacksReading({ ...UNREAD, windKt: 10, gustKt: 10 })).toBe("gustsBelow");
    expect(lacksReading({ ...UNREAD, windKt: 10, gustKt: 11 })).toBeNull();
  });

  it("[PAN-12] a key for less enters no limit into a blank figure", () => {
    expect(windStepped(UNREAD, -5)).toEqual(UNREAD);
    expect(windStepped(windStepped(UNREAD, 5), -1).windKt).toBe(4);
    expect(gustStepped({ ...UNREAD, windKt: 8 }, -1).gustKt).toBeNull();
    expect(gustStepped({ ...UNREAD, windKt: 8 }, 5).gustKt).toBe(13);
  });
});

it("[ALR-12] the cockpit is asked to release a starter past its limit, not whether it has seen it", () => {
  const story = given({}).upTo("starting");
  story.cranking(3);
  story.wait(41);
  const ask = askedOf(story.state, "cockpit", story.now).find((a) => a.say === "alert.starterLimit");
  expect(ask?.choices.map((c) => c.word)).toEqual(["releasedAbandoned", "releasedCaught"]);
  expect(askedOf(story.state, "cockpit", story.now)[0]?.say).toBe("alert.starterLimit");
});
