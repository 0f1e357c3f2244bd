import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Ask, type Choice, fill, type Given } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { answerAt } from "../../shared/card/places.ts";
import { wholeCard } from "../../shared/card/whole.ts";
import { cardAnswered } from "../../shared/conditions/card.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { CardItem } from "../../shared/types/card.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { RICH } from "../figures/rich.ts";
import { ed, fay, given, type Say, START, type Story } from "./given.ts";

const source = { basis: "invented", text: "for tests" } as const;
const item = (id: string, moment: CardItem["moment"], more: Partial<CardItem> = {}): CardItem => ({
  ...{ id, words: `The ${id}`, moment, post: "cockpit", kind: { is: "done" }, source },
  ...more,
});

const CARD: CardItem[] = [
  item("batteries", "beforeStart", { clearance: true }),
  item("restPressure", "beforeStart", {
    kind: {
      is: "target",
      gauge: "ambient",
      of: "stationPressure",
      within: { value: 1, unit: "inHg", source },
    },
  }),
  item("mixture", "beforeEngine", { clearance: true }),
  item("selector", "beforeEngine", { engines: [3] }),
  item("fuelWatch", "cranking"),
  item("horizon", "caught", {
    engines: [3],
    kind: { is: "alive", within: { value: 30, unit: "s", source } },
  }),
  item("idle", "stable", { kind: { is: "range", gauge: "rpm", min: 800, max: 1000 } }),
  item("trim", "beforeRelease", { clearance: true }),
  item("switchesOff", "stopped"),
];

const ambient = {
  ...RICH.gauges.find((g) => g.id === "manifold"),
  id: "ambient",
  name: "Manifold pressure at rest",
  perEngine: false,
} as AircraftType["gauges"][number];

const CARDED: AircraftType = {
  ...RICH,
  card: CARD,
  gauges: [...RICH.gauges, ambient],
  conditions: [...RICH.conditions, "cardAnswered"],
};

const story = (type: AircraftType = CARDED) => given({ type, more: { elevationFt: 0 } }).manned();
const cardAsks = (s: Story, post: Post = "cockpit"): Ask[] =>
  askedOf(s.state, post, s.now).filter((a) => a.key.startsWith("card:"));
const nextItem = (s: Story) => cardAsks(s)[0]?.key.slice("card:".length);
const answerNext = (s: Story, given: Given = {}) => {
  const first = cardAsks(s)[0]?.choices[0] as Choice;
  return s.say("cockpit", fill(first, given) as Say);
};
const done = (s: Story, id: string, engine?: number) =>
  s.say("cockpit", { type: "answerCard", item: id, good: true, ...(engine ? { engine } : {}) });
const rpm = (value: number) => ({ figure: { value, unit: "rpm" as const } });
/** A session in the starting stage whose card is answered as far as a clearance for engine 3 stands on it. */
const ready = () => {
  const s = story().upTo("groundPower");
  done(s, "batteries");
  return s;
};

describe("the card", () => {
  it("[CRD-1] asks one item at a time, at its moment, in the order of the job", () => {
    const s = story().upTo("starting");
    expect(cardAsks(s)).toHaveLength(1);
    expect(nextItem(s)).toBe("batteries");
    answerNext(s);
    // The pressure at rest waits for a QNH: without it the figure could not be judged.
    expect(nextItem(s)).toBe("mixture:3");
    answerNext(s);
    expect(nextItem(s)).toBe("selector:3");
    answerNext(s);
    expect(nextItem(s)).toBeUndefined();
    s.say("supervisor", { type: "recordWeather", windKt: 4, fromDeg: 0, qnhHpa: 1013.25 });
    expect(nextItem(s)).toBe("restPressure");
  });

  it("[CRD-1] asks again, after all else, what was found not good and a clearance or the release stands on", () => {
    const s = ready();
    const no = (id: string, engine?: number) =>
      s.say("cockpit", { type: "answerCard", item: id, good: false, ...(engine ? { engine } : {}) });
    no("batteries");
    s.upTo("starting");
    no("selector", 3);
    no("mixture", 3);
    expect(cardAsks(s).map((a) => [a.key, a.say])).toEqual([["card:batteries:again", "card.again"]]);
    done(s, "batteries");
    expect(cardAsks(s).map((a) => [a.key, a.say])).toEqual([["card:mixture:3:again", "cardOfEngine.again"]]);
    no("mixture", 3);
    expect(nextItem(s)).toBe("mixture:3:again");
    done(s, "mixture", 3);
    // Nothing stands on the selector: once answered, it is not asked again.
    expect(cardAsks(s)).toEqual([]);
  });

  it("[CRD-2] asks nothing while a starter is held; what was watched is one touch afterwards", () => {
    const s = ready().upTo("starting");
    done(s, "mixture", 3);
    s.cranking(3);
    for (const post of ["cockpit", "fireGuard", "groundPower", "supervisor"] as const) {
      expect(cardAsks(s, post)).toEqual([]);
    }
    s.wait(5).send("cockpit", "caught", { engine: 3 });
    expect(nextItem(s)).toBe("fuelWatch:3");
    answerNext(s);
    expect(nextItem(s)).toBe("horizon:3");
  });

  it("[CRD-3] an instrument comes alive within its time of the catch; the record keeps how long it took", () => {
    const s = ready().upTo("starting");
    done(s, "mixture", 3);
    s.cranking(3);
    s.wait(5).send("cockpit", "caught", { engine: 3 });
    const caught = s.now;
    done(s, "fuelWatch", 3);
    expect(cardAsks(s)[0]?.dueAt).toBe(caught + 30_000);
    s.wait(12);
    answerNext(s);
    expect(s.told("cardAnswered").at(-1)).toMatchObject({
      item: "horizon",
      engine: 3,
      good: true,
      afterS: 12,
    });
    expect(s.state.card?.["horizon:3"]?.after).toBe(12);
  });

  it("[CRD-4] items are answered out of order and again; the newest answer counts", () => {
    const s = story().upTo("starting");
    expect(done(s, "selector", 3).refusal).toBeUndefined();
    expect(done(s, "mixture", 1).refusal).toBeUndefined();
    expect(nextItem(s)).toBe("batteries");
    s.say("cockpit", { type: "answerCard", item: "batteries", good: false, note: "number 2 low" });
    expect(s.state.card?.batteries).toMatchObject({ good: false, note: "number 2 low" });
    done(s, "batteries");
    expect(s.state.card?.batteries?.good).toBe(true);
  });

  it("[CRD-5] a figure is judged by its range, bounds included, and is a reading of its gauge too", () => {
    const s = ready().upTo("starting");
    done(s, "mixture", 3);
    s.started(3);
    done(s, "fuelWatch", 3);
    done(s, "horizon", 3);
    expect(nextItem(s)).toBe("idle:3");
    answerNext(s, rpm(1000));
    expect(s.state.card?.["idle:3"]).toMatchObject({ good: true, reading: { value: 1000, unit: "rpm" } });
    expect(s.state.engines[2]?.readings.rpm).toMatchObject({ value: 1000, unit: "rpm" });
    const read = (value: number) =>
      s.say("cockpit", { type: "answerCard", item: "idle", engine: 3, reading: { value, unit: "rpm" } });
    for (const [value, good] of [
      [800, true],
      [799, false],
      [1001, false],
    ] as const) {
      read(value);
      expect([value, s.state.card?.["idle:3"]?.good]).toEqual([value, good]);
    }
    expect(read(-1).refusal?.reason).toBe("outOfRange");
    const volts = { value: 900, unit: "V" } as const;
    const wrong = s.say("cockpit", { type: "answerCard", item: "idle", engine: 3, reading: volts });
    expect(wrong.refusal?.reason).toBe("wrongUnit");
  });

  // FAA-H-8083-32 ch. 10: with the engine stopped the manifold gauge reads the field's pressure, 29.92 inHg at sea level.
  it.each([
    [29.92, true],
    [30.92, true],
    [30.93, false],
    [28.91, false],
  ])("[CRD-6] %f inHg at rest beside 29.92 by QNH and height: %s", (value, good) => {
    const s = story().upTo("starting");
    const reading = { value, unit: "inHg" } as const;
    const answer = () => s.say("cockpit", { type: "answerCard", item: "restPressure", reading });
    expect(answer().refusal).toEqual({ reason: "missingFigure", found: "QNH" });
    s.say("supervisor", { type: "recordWeather", windKt: 4, qnhHpa: 1013.21 });
    answer();
    expect(s.state.card?.restPressure?.good).toBe(good);
  });

  it("[CRD-7] a clearance stands on the items marked so, and falls with them", () => {
    const s = story().upTo("starting");
    const find = () => cardAnswered.find(s.state, 3, s.now);
    expect(find()).toMatchObject({ is: "unknown", found: "0 of 2" });
    expect(askedOf(s.state, "cockpit", s.now).some((a) => a.say === "readyToStart")).toBe(false);
    done(s, "batteries");
    expect(find().found).toBe("1 of 2");
    done(s, "mixture", 3);
    expect(find()).toMatchObject({ is: "yes", by: { post: "cockpit", name: "Ada" } });
    s.cleared(3);
    expect(s.state.engines[2]?.life.is).toBe("clear");
    s.say("cockpit", { type: "answerCard", item: "mixture", engine: 3, good: false });
    expect(find().is).toBe("no");
    expect(s.state.engines[2]?.life.is).toBe("waiting");
  });

  it("[CRD-8] what was prepared for a start is asked again after it; what was watched belongs to one attempt", () => {
    const s = ready().upTo("starting");
    done(s, "mixture", 3);
    s.cranking(3);
    s.wait(5).send("cockpit", "startAbandoned", { engine: 3 });
    expect(s.state.card?.["mixture:3"]).toBeUndefined();
    expect(s.state.card?.batteries?.good).toBe(true);
    expect(nextItem(s)).toBe("fuelWatch:3");
    answerNext(s);
    expect(nextItem(s)).toBe("mixture:3");
    answerNext(s);
    s.wait(121);
    s.brakes();
    s.cranking(3);
    expect(s.state.card?.["fuelWatch:3"]).toBeUndefined();
  });

  it("[CRD-9] two people: one reads out, either answers, and both are on the record", () => {
    const s = story().upTo("starting");
    s.does(fay, { type: "readCard", item: "batteries" });
    done(s, "batteries");
    expect(s.state.card?.batteries).toMatchObject({ by: { name: "Ada" }, readBy: { name: "Fay" } });
    s.say("cockpit", { type: "readCard", item: "mixture", engine: 3 });
    s.does(fay, { type: "answerCard", item: "mixture", engine: 3, good: true });
    expect(s.state.card?.["mixture:3"]).toMatchObject({
      by: { name: "Fay", post: null },
      readBy: { name: "Ada" },
    });
    // Read out and answered by one person, or another item answered: no challenge.
    s.say("cockpit", { type: "readCard", item: "selector", engine: 3 });
    done(s, "selector", 3);
    expect(s.state.card?.["selector:3"]?.readBy).toBeUndefined();
  });

  it("[CRD-9] nobody else answers it, but that something is not done is taken from anybody", () => {
    const s = story().upTo("starting");
    const good = { type: "answerCard", item: "batteries", good: true } as const;
    expect(s.does(ed, good).refusal).toEqual({ reason: "wrongPost", posts: ["cockpit"] });
    expect(s.say("fireGuard", good).refusal?.reason).toBe("wrongPost");
    expect(s.does(ed, { type: "readCard", item: "batteries" }).refusal?.reason).toBe("wrongPost");
    expect(s.does(ed, { ...good, good: false }).refusal).toBeUndefined();
    expect(s.state.card?.batteries?.good).toBe(false);
  });

  it("[CRD-10, REF-1] an item, an engine or an answer that it has not is refused", () => {
    const s = story().upTo("starting");
    const say = (more: object) =>
      s.say("cockpit", { type: "answerCard", good: true, ...more } as Say).refusal;
    expect(say({ item: "flaps" })?.reason).toBe("noSuchCheck");
    expect(say({ item: "mixture" })?.reason).toBe("engineNeeded");
    expect(say({ item: "mixture", engine: 7 })).toMatchObject({
      reason: "noSuchEngine",
      found: "1, 2, 3, 4",
    });
    expect(say({ item: "selector", engine: 2 })).toMatchObject({ reason: "noSuchEngine", found: "3" });
    expect(say({ item: "batteries", engine: 2 })?.reason).toBe("noSuchEngine");
    expect(say({ item: "idle", engine: 3 })).toEqual({ reason: "missingFigure", found: "rpm" });
    const bare = s.say("cockpit", { type: "answerCard", item: "batteries" }).refusal;
    expect(bare?.reason).toBe("missingFigure");
  });

  it("[CRD-11] the release stands on the items marked so before it", () => {
    const s = ready();
    const missing = (state: SessionState) => ({ ...s, state });
    expect(missing(s.state)).toBeDefined();
    s.upTo("starting");
    for (const n of s.state.order) {
      done(s, "mixture", n);
      s.started(n);
    }
    s.say("supervisor", { type: "advance", to: "warmUp" });
    const refusal = s.say("supervisor", { type: "advance", to: "release" }).refusal;
    expect(refusal?.missing).toContain("card:trim");
    done(s, "trim");
    expect(s.say("supervisor", { type: "advance", to: "release" }).refusal?.missing ?? []).not.toContain(
      "card:trim",
    );
  });

  it("[CRD-12] the whole card lists every item once for each of its engines", () => {
    const keys = wholeCard(story().state, START).map(({ item, engine }) => `${item.id}:${engine ?? 0}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys).toHaveLength(3 + 4 * 4 + 2);
    expect(keys.slice(0, 4)).toEqual(["batteries:0", "restPressure:0", "mixture:3", "selector:3"]);
  });

  it("[CRD-40] shows the items of the case in which an engine is to be started, and those answered once it runs", () => {
    const cased: AircraftType = {
      ...CARDED,
      prime: {
        amount: { value: 3, unit: "s", source },
        hot: { within: { value: 30, unit: "min", source }, amount: { value: 0, unit: "s", source } },
      },
      card: [
        ...CARD,
        ...(["usual", "hot", "flooded"] as const).map((when) =>
          item(when, "beforeEngine", { when, engines: [3], clearance: true }),
        ),
      ],
    };
    const s = given({ type: cased, order: [3] })
      .manned()
      .upTo("groundPower");
    done(s, "batteries");
    s.upTo("starting");
    const cases = () =>
      wholeCard(s.state, s.now).flatMap((p) => (p.item.when && p.engine === 3 ? [p.item.when] : []));
    expect(cases()).toEqual(["usual"]);
    done(s, "mixture", 3);
    // An item of another case does not stand for this one.
    done(s, "hot", 3);
    expect(cardAnswered.find(s.state, 3, s.now).is).toBe("unknown");
    done(s, "usual", 3);
    expect(cardAnswered.find(s.state, 3, s.now).is).toBe("yes");
    s.failedStart(3, 5);
    expect(cases()).toEqual(["flooded"]);
    expect(cardAnswered.find(s.state, 3, s.now).is).toBe("unknown");
    s.wait(120);
    for (const id of ["mixture", "flooded"]) done(s, id, 3);
    s.started(3);
    expect(cases()).toEqual(["flooded"]);
    s.send("cockpit", "shutDown", { engine: 3 });
    expect(cases()).toEqual(["hot"]);
    // At the end of the type's half hour it is still hot; a millisecond later it is not.
    s.waitMs(1_800_000 - (s.now - (s.state.engines[2]?.lastRanAt ?? 0)));
    expect(cases()).toEqual(["hot"]);
    s.waitMs(1);
    expect(cases()).toEqual(["usual"]);
  });

  it("[CRD-13] a type without a card is asked nothing more, and its states are the same", () => {
    const s = given({ type: RICH }).manned().upTo("starting");
    s.started(3);
    expect(s.state.card).toBeUndefined();
    expect(cardAsks(s)).toEqual([]);
    const again = s.log.reduce<SessionState | null>((state, event) => evolve(state, event), null);
    expect(again).toEqual(s.state);
    expect(s.say("cockpit", { type: "answerCard", item: "batteries", good: true }).refusal?.reason).toBe(
      "noSuchCheck",
    );
  });

  it("[CRD-2] a stop silences the card: first the stop", () => {
    const s = story().upTo("starting");
    s.send("fireGuard", "hold");
    expect(cardAsks(s)).toEqual([]);
  });

  it("[CRD-4] answers are kept by event, and an unanswered item has none", () => {
    const s = story().upTo("starting");
    const [first] = wholeCard(s.state, s.now);
    expect(first && answerAt(s.state, first)).toBeNull();
  });
});

describe("the card in any order of acts", () => {
  const acts = fc.oneof(
    fc.record({
      act: fc.constant("answer" as const),
      item: fc.constantFrom("batteries", "mixture", "selector", "fuelWatch", "horizon"),
      engine: fc.constantFrom(3, 4),
      good: fc.constantFrom(true, true, true, false),
      who: fc.constantFrom("cockpit" as const, "second" as const),
    }),
    fc.record({
      act: fc.constantFrom(
        "clear" as const,
        "clear" as const,
        "crank" as const,
        "catch" as const,
        "abandon" as const,
        "wait" as const,
      ),
      engine: fc.constantFrom(3, 4),
    }),
  );

  function step(s: Story, move: typeof acts extends fc.Arbitrary<infer T> ? T : never): void {
    const { engine } = move;
    switch (move.act) {
      case "answer": {
        const at = move.item === "batteries" ? {} : { engine };
        const answer = { type: "answerCard", item: move.item, good: move.good, ...at } as const;
        if (move.who === "cockpit") s.say("cockpit", answer);
        else s.does(fay, answer);
        return;
      }
      case "clear": {
        s.send("fireGuard", "guardInPlace", { engine });
        s.send("fireGuard", "arcClear", { engine });
        s.send("cockpit", "readyToStart", { engine, note: "as agreed" });
        s.send("supervisor", "clearToStart", { engine });
        const asked = s.state.signals.find((x) => x.kind === "clearToStart" && x.engine === engine);
        if (asked) s.answer("cockpit", asked.id, "readBack", engine);
        return;
      }
      case "crank":
        // Only on a clearance: an engine seen turning without one would hold everything.
        if (s.life(engine) === "clear") s.send("cockpit", "cranking", { engine });
        return;
      case "catch":
        s.send("cockpit", "caught", { engine });
        return;
      case "abandon":
        s.send("cockpit", "startAbandoned", { engine });
        return;
      case "wait":
        s.wait(3);
    }
  }

  it("[CRD-2, CRD-7, CRD-8] no clearance stands on an item that is open or not good, and nothing is asked mid-crank", () => {
    const base = ready().upTo("starting");
    for (const n of [3, 4]) done(base, "mixture", n);
    let cleared = 0;
    fc.assert(
      fc.property(fc.array(acts, { maxLength: 30 }), (moves) => {
        const s = base.copy();
        for (const move of moves) {
          step(s, move);
          for (const { n, life } of s.state.engines) {
            if (life.is !== "clear") continue;
            cleared += 1;
            expect(s.state.card?.batteries?.good).toBe(true);
            expect(s.state.card?.[`mixture:${n}`]?.good).toBe(true);
          }
          if (s.state.engines.some((e) => e.life.is === "cranking")) expect(cardAsks(s)).toEqual([]);
          expect(cardAsks(s).length).toBeLessThanOrEqual(1);
        }
        expect(s.replayed()).toEqual(s.state);
      }),
      { seed: 16, numRuns: 150 },
    );
    // The walk reached what it is about.
    expect(cleared).toBeGreaterThan(20);
  });
});

describe("a type's card", () => {
  const faults = (card: CardItem[], conditions = CARDED.conditions) => {
    const read = readAircraftType({ ...CARDED, card, conditions });
    return "faults" in read ? read.faults.map((f) => `${f.path}: ${f.message}`) : [];
  };
  const alive = { is: "alive", within: { value: 30, unit: "s", source } } as const;
  const range = (gauge: string, min?: number) =>
    ({ is: "range", gauge, ...(min === undefined ? {} : { min }) }) as const;

  it("[TYP-15] is valid as it stands here", () => {
    expect(faults(CARD)).toEqual([]);
  });

  it.each([
    ["two items of one id", [...CARD, item("mixture", "stable")], /same id/],
    [
      "engines at a moment of the aircraft",
      [...CARD, item("x", "beforeStart", { engines: [1] })],
      /whole aircraft/,
    ],
    ["an engine that it lacks", [...CARD, item("x", "stable", { engines: [5] })], /no such engine/],
    ["a clearance after the start", [...CARD, item("x", "stable", { clearance: true })], /before it/],
    [
      "a clearance on another post",
      [...CARD, item("x", "beforeStart", { clearance: true, post: "fireGuard" })],
      /cockpit's items/,
    ],
    [
      "a watch before the catch",
      [...CARD, item("x", "beforeEngine", { kind: alive })],
      /as its engine catches/,
    ],
    ["an unknown gauge", [...CARD, item("x", "stable", { kind: range("nosuch", 1) })], /no gauge/],
    [
      "a bound that its gauge cannot show, so that nobody could answer it",
      [...CARD, item("x", "stable", { kind: range("rpm", 1e6) })],
      /off the scale/,
    ],
    ["oil pressure", [...CARD, item("x", "stable", { kind: range("oilPressure", 1) })], /oil's own times/],
    [
      "an engine's gauge without an engine",
      [...CARD, item("x", "beforeStart", { kind: range("rpm", 1) })],
      /each engine/,
    ],
  ] as const)("[TYP-15] refuses %s", (_, card, message) => {
    expect(faults([...card]).join()).toMatch(message);
  });

  it("[TYP-15] refuses a clearance item without the condition", () => {
    expect(faults(CARD, RICH.conditions).join()).toMatch(/list cardAnswered/);
    const none = CARD.map(({ clearance: _, ...i }) => i);
    expect(faults(none, RICH.conditions)).toEqual([]);
  });

  it("[TYP-15] refuses the condition where no clearance can stand on an item of the card", () => {
    const none = CARD.map(({ clearance: _, ...i }) => i);
    const conditions: AircraftType["conditions"] = [...RICH.conditions, "cardAnswered"];
    expect(faults(none, conditions).join()).toMatch(/needs an item of the card/);
    const bare = readAircraftType({ ...RICH, conditions });
    expect("faults" in bare && bare.faults.map((f) => f.path)).toEqual(["conditions"]);
    // An item before the release is asked after every clearance, so none can stand on it.
    const late = none.map((i): CardItem => (i.moment === "beforeRelease" ? { ...i, clearance: true } : i));
    expect(faults(late, conditions).join()).toMatch(/needs an item of the card/);
  });
});
