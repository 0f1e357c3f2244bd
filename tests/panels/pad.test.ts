import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { RUN_UP_ITEMS, type RunUpItem } from "../../shared/protocol/commands.ts";
import { askView } from "../../web/posts/shared/askViews.ts";
import { gathered } from "../../web/posts/shared/gathered.ts";
import { padView } from "../../web/posts/shared/padView.ts";
import { closeUp } from "../../web/ui/closeUp.ts";
import { BLANK, typed } from "../../web/ui/figureEntry.ts";
import type { FigureSpec } from "../../web/ui/figureSpec.ts";
import {
  alike,
  BLANK_PAD,
  cellAt,
  dueCells,
  missing,
  type PadEntry,
  settled,
  toSend,
  valueIn,
  withAlike,
  withDigit,
  withSent,
  withTouch,
} from "../../web/ui/padEntry.ts";
import type { PadId } from "../../web/ui/padId.ts";
import type { Outcome } from "../../web/ui/padView.ts";
import { type DigitKey, figureTyped, isWhole, onTheScale, typedWith } from "../../web/ui/typedFigure.ts";
import { wordsNow } from "../../web/words/words.ts";
import { given, type Story } from "../spec/given.ts";
import { RUN_UP } from "../spec/runUpType.ts";

const words = wordsNow();

/** The asks of the cockpit as its panel shows them. */
function shown({ state, now }: Story) {
  const asks = askedOf(state, "cockpit", now);
  return gathered(
    asks.map((ask) => ({ ask, view: askView(state, ask, now, AS_READ, words) })),
    words,
  );
}

function pad(story: Story, id: PadId) {
  const ask = shown(story).find((a) => a.pad === id);
  if (!ask) throw new Error(`no pad ${id}: ${shown(story).map((a) => a.key)}`);
  return padView({ state: story.state, now: story.now, words }, id, ask.answers);
}

/** Every gate of the warm-up is open: its gauges are read, and warm enough. */
const warm = () => given({ type: { ...RUN_UP, warmUp: [] }, order: [3, 4] }).upTo("warmUp");
const READ: Readonly<Record<RunUpItem, number>> = {
  ...{ powerManifold: 30, powerRpm: 2000, magnetoBoth: 2000, magnetoLeft: 1940, magnetoRight: 1950 },
  ...{ featherBefore: 1500, featherLowest: 1420, featherAfter: 1495 },
};
const read = (story: Story, engine: number, item: RunUpItem, value = READ[item]) =>
  story.say("cockpit", {
    type: "recordRunUp",
    engine,
    item,
    reading: { value, unit: item === "powerManifold" ? "inHg" : "rpm" },
  });

const type = (view: ReturnType<typeof pad>, entry: PadEntry, keys: string) =>
  [...keys].reduce((e, key) => withDigit(view, e, key as DigitKey), entry);
const none = () => null;
const became = (is: Outcome) => () => is;

describe("the pad of the run-up", () => {
  it("[PAN-50] stands once for each check, in the place of an ask for every figure of every engine", () => {
    const story = warm();
    expect(askedOf(story.state, "cockpit", story.now).filter((a) => a.say === "runUp")).toHaveLength(16);
    expect(shown(story).flatMap((a) => a.pad ?? [])).toEqual(["power", "magneto", "feather"]);
  });

  it("[PAN-50] starts blank, also where a figure was read before, and says what is missing", () => {
    const story = warm();
    for (const [item, value] of [
      ["magnetoBoth", 2000],
      ["magnetoLeft", 2000],
      ["magnetoRight", 1950],
    ] as const)
      read(story, 3, item, value);
    const view = pad(story, "magneto");
    expect(dueCells(view).map((c) => valueIn(BLANK_PAD, c.id))).toEqual(Array(6).fill(null));
    expect(view.rows.map((r) => r.cells.map((c) => c.spec.before))).toEqual([
      [2000, null],
      [2000, null],
      [1950, null],
    ]);
    expect(missing(view, BLANK_PAD)).toHaveLength(6);
    expect(toSend(view, BLANK_PAD, none)).toEqual([]);
  });

  it("[PAN-50] goes from figure to figure: one engine after the other for magnetos, one figure after the other for power", () => {
    const story = warm();
    expect(dueCells(pad(story, "magneto")).map((c) => c.id)).toEqual([
      "magnetoBoth:3",
      "magnetoLeft:3",
      "magnetoRight:3",
      "magnetoBoth:4",
      "magnetoLeft:4",
      "magnetoRight:4",
    ]);
    const power = pad(story, "power");
    expect(dueCells(power).map((c) => c.id)).toEqual([
      "powerManifold:3",
      "powerManifold:4",
      "powerRpm:3",
      "powerRpm:4",
    ]);
    const once = withTouch(power, BLANK_PAD, 30);
    expect(cellAt(power, once)?.id).toBe("powerManifold:4");
    expect(toSend(power, once, none).map((c) => c.id)).toEqual(["powerManifold:3"]);
  });

  it("[PAN-50] keeps a refused figure and forgets a recorded one", () => {
    const power = pad(warm(), "power");
    const sent = withSent(withTouch(power, BLANK_PAD, 30), new Map([["powerManifold:3", "c1"]]));
    expect(valueIn(settled(sent, became({ is: "sending" })), "powerManifold:3")).toBe(30);
    expect(toSend(power, sent, became({ is: "sending" }))).toEqual([]);
    const refused = settled(sent, became({ is: "not", words: "no" }));
    expect(valueIn(refused, "powerManifold:3")).toBe(30);
    expect(toSend(power, refused, became({ is: "not", words: "no" })).map((c) => c.id)).toEqual([
      "powerManifold:3",
    ]);
    expect(settled(sent, became({ is: "recorded" }))).toEqual({ ...sent, cells: {} });
    // A figure that could not be sent at all stays too.
    const unsent = withSent(withTouch(power, BLANK_PAD, 30), new Map([["powerManifold:3", null]]));
    expect(toSend(power, unsent, none)).toHaveLength(1);
  });

  it("[PAN-51] repeats a figure only where the crew sets it alike, and only in blank cells", () => {
    const view = pad(warm(), "magneto");
    expect(view.rows.map((r) => [r.id, r.setAlike])).toEqual([
      ["magnetoBoth", true],
      ["magnetoLeft", false],
      ["magnetoRight", false],
    ]);
    expect(alike(view, BLANK_PAD)).toBeNull();
    const one = type(view, BLANK_PAD, "2000");
    const all = withAlike(view, one);
    expect(valueIn(all, "magnetoBoth:4")).toBe(2000);
    expect(valueIn(all, "magnetoLeft:3")).toBeNull();
    expect(alike(view, all)).toBeNull();
  });

  it("[PAN-53] names why a check failed, asks for it again, and no more once it is written up", () => {
    const story = warm();
    for (const engine of [3, 4]) for (const item of RUN_UP_ITEMS) read(story, engine, item);
    read(story, 3, "magnetoLeft", 2000);
    expect(shown(story).flatMap((a) => a.pad ?? [])).toEqual(["magneto"]);
    const { faults } = pad(story, "magneto");
    expect(faults.map((f) => f.words)).toEqual([
      "Run-up of number 3: magnetos the drops are uneven",
      "Run-up of number 3: magnetos no drop on the left: not grounded, or timing",
    ]);
    const [fault] = faults;
    expect(dueCells(pad(story, "magneto")).map((c) => c.engine)).toEqual([3, 3, 3]);
    const { choice } = fault?.defect ?? { choice: null };
    expect(choice?.draft).toMatchObject({ type: "writeDefect", engine: 3, barsStart: true });
    story.say("cockpit", { type: "writeDefect", engine: 3, barsStart: true, words: fault?.words ?? "" });
    expect(shown(story).flatMap((a) => a.pad ?? [])).toEqual([]);
    // Dealt with: it is read again.
    const defect = story.state.defects[0]?.id ?? "";
    story.say("supervisor", { type: "closeDefect", defect, reason: "Lead mended" });
    expect(shown(story).flatMap((a) => a.pad ?? [])).toEqual(["magneto"]);
  });
});

describe("digits", () => {
  const RPM = { from: 0, to: 3200, step: 10 };
  const SUCTION = { from: 0, to: 10, step: 0.1 };
  const HEAT = { from: -40, to: 150, step: 1 };
  const keys = (scale: typeof RPM, pressed: string) =>
    [...pressed].reduce((t, k) => typedWith(scale, t, (k === "<" ? "back" : k) as DigitKey), "");

  it("[PAN-51] are taken as typed, with a point and a sign only where the instrument shows them", () => {
    expect(figureTyped(keys(RPM, "2305"))).toBe(2305);
    expect(keys(RPM, "23.05")).toBe("2305");
    expect(keys(SUCTION, "4.55")).toBe("4.5");
    expect(keys(SUCTION, ".5")).toBe("0.5");
    expect(keys(HEAT, "12±")).toBe("-12");
    expect(keys(RPM, "12±")).toBe("12");
    expect(keys(RPM, "230<<")).toBe("2");
    expect(figureTyped(keys(RPM, "2<"))).toBeNull();
  });

  it("[PAN-51] off the scale are no figure that can be sent", () => {
    expect(keys(RPM, "9999")).toBe("999");
    expect(onTheScale(RPM, 3300)).toBe(false);
    expect(onTheScale(HEAT, Number(keys(HEAT, "90±")))).toBe(false);
  });

  it("[PAN-51] go on by themselves only when no further digit can follow", () => {
    expect(isWhole(RPM, "230")).toBe(false);
    expect(isWhole(RPM, "2300")).toBe(true);
    expect(isWhole({ from: 0, to: 200, step: 1 }, "15")).toBe(false);
    expect(isWhole({ from: 0, to: 200, step: 1 }, "85")).toBe(true);
    expect(isWhole(SUCTION, "4")).toBe(false);
    expect(isWhole(SUCTION, "4.5")).toBe(true);
    expect(isWhole(HEAT, "")).toBe(false);
  });

  const SPEC: FigureSpec = {
    ...{ label: "Volts", unit: "V", from: 0, to: 40, step: 0.1, start: 26 },
    ...{ before: null, startWords: "", low: 24, high: 28 },
  };

  it("[PAN-51] replace a figure that was stepped to, and delete from it", () => {
    expect(typed(SPEC, { ...BLANK, value: 26.5 }, "2")).toMatchObject({ value: 2, typed: "2" });
    expect(typed(SPEC, { ...BLANK, value: 26.5 }, "back")).toMatchObject({ value: 26, typed: "26." });
    expect(typed(SPEC, { value: 2, asking: false, typed: "2" }, "back")).toEqual(BLANK);
  });

  it("[PAN-51] the scale of the pad shows the part where the figure is expected, steps apart enough for a glove", () => {
    expect(closeUp(SPEC, null)).toEqual({ from: 22, to: 30 });
    expect(closeUp({ ...SPEC, low: null, high: null }, null)).toEqual({ from: 0, to: 40 });
    expect(closeUp({ ...SPEC, ...RPM, low: null, high: 2700 }, 2000)).toEqual({ from: 1850, to: 2050 });
  });
});
