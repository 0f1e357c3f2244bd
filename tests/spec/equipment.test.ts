import { describe, expect, it } from "vitest";
import { cartOf, cartRules } from "../../shared/equipment/cart.ts";
import { cableDrop } from "../../shared/figures/cableDrop.ts";
import { expectedVolts } from "../../shared/figures/crankingVolts.ts";
import { barsUse, equipmentFaultsNow } from "../../shared/house/due.ts";
import { equipmentFaults, factsOf } from "../../shared/house/equipment.ts";
import { ALL_BAR, houseSchema } from "../../shared/house/house.ts";
import { labelIn } from "../../shared/protocol/equipmentKinds.ts";
import { RICH } from "../figures/rich.ts";
import { numberIn } from "../figures/told.ts";
import { BOTTLE, CART, CHOCKS, keptAs } from "./equipped.ts";
import { given, type Story } from "./given.ts";

const DAY = 24 * 3_600_000;
const WARN = { ...ALL_BAR, extinguisher: "warns" } as const;

describe("a date of a piece", () => {
  const over = Date.UTC(2027, 0, 1);
  const at = (now: number, rules = ALL_BAR) => equipmentFaultsNow(keptAs(BOTTLE), rules, now);
  const weighed = { date: "weighedUntil", until: "2026-12-31" };

  it("[EQP-3] [EQP-4] holds to the end of its day, is due soon for 30 days, then bars or warns", () => {
    expect(at(over - 30 * DAY - 1)).toEqual([]);
    expect(at(over - 30 * DAY)).toEqual([{ is: "ending", ...weighed }]);
    expect(at(over - 1)).toEqual([{ is: "ending", ...weighed }]);
    expect(at(over)).toEqual([{ is: "overdue", ...weighed, bars: true }]);
    expect(at(over, WARN)).toEqual([{ is: "overdue", ...weighed, bars: false }]);
    expect([at(over).some(barsUse), at(over, WARN).some(barsUse), at(over - 1).some(barsUse)]).toEqual([
      true,
      false,
      false,
    ]);
  });

  it("[EQP-3] that nobody knows counts as over on an extinguisher, and on nothing else", () => {
    const unknown = keptAs({ ...BOTTLE, weighedUntil: null, testedUntil: null });
    const none = (date: string) => ({ is: "noDate", date, bars: true });
    expect(equipmentFaultsNow(unknown, ALL_BAR, over)).toEqual([none("weighedUntil"), none("testedUntil")]);
    expect(equipmentFaultsNow(keptAs(CHOCKS), ALL_BAR, over)).toEqual([]);
    const tested = keptAs({ ...CHOCKS, testedUntil: "2026-12-31" });
    expect(equipmentFaultsNow(tested, ALL_BAR, over)).toMatchObject([{ is: "overdue", date: "testedUntil" }]);
  });

  it("[EQP-2] [EQP-3] out of service comes first, and bars whatever the rule", () => {
    const out = keptAs(BOTTLE, { out: { cause: "usedUp", words: "Used at Stand 4" } });
    const [first, second] = equipmentFaultsNow(out, WARN, over);
    expect([first, second?.is]).toEqual([
      { is: "out", cause: "usedUp", words: "Used at Stand 4" },
      "overdue",
    ]);
    expect(equipmentFaultsNow(out, WARN, over).some(barsUse)).toBe(true);
  });

  it("[EQP-4] bars in a house of before there was such a rule", () => {
    expect(houseSchema.parse({ id: "house", name: "Northfield" }).overdue).toEqual(ALL_BAR);
  });
});

it("[EQP-1] a cart's entry is checked: its cable's size and its peak", () => {
  expect(equipmentFaults(keptAs(CART))).toEqual([]);
  const wrong = keptAs({ ...CART, peakA: 499, cable: { ...CART.cable, size: "5/0" } });
  expect(equipmentFaults(wrong)).toMatchObject([
    { path: "cable.size", message: expect.stringContaining("no wire 5/0") },
    { path: "peakA", message: "499 A is below the 500 A that it gives all the time" },
  ]);
});

it.each([
  ["EXT-3", "EXT-3"],
  [" ext-3 ", "EXT-3"],
  ["https://ramp.example/equipment/EXT-3", "EXT-3"],
  ["EXT 3", null],
  ["https://ramp.example/equipment/", null],
  ["", null],
  ["X".repeat(17), null],
])("[EQP-9] what was scanned or typed, %j, is the label %j", (text, label) => {
  expect(labelIn(text)).toBe(label);
});

describe("a label at the stand", () => {
  const shown = (story: Story, facts = CART, barred = false) => {
    story.equipment = { facts, barred };
    return story.say("groundPower", { type: "showEquipment", label: facts.id });
  };

  it("[EQP-6] is recorded with the facts of that moment, and takes the place of the plan's", () => {
    const more = { equipment: [factsOf(keptAs(CART)), factsOf(keptAs(BOTTLE))] };
    const story = given({ more }).manned();
    expect(story.state.equipment).toEqual([{ facts: CART }, { facts: BOTTLE }]);
    const repaired = { ...CART, peakA: 1200 };
    expect(shown(story, repaired).events.at(-1)?.fact).toEqual({
      type: "equipmentShown",
      equipment: repaired,
    });
    expect(story.state.equipment).toMatchObject([
      { facts: BOTTLE },
      { facts: repaired, shown: { name: "Cy", post: "groundPower", at: story.now } },
    ]);
  });

  it("[EQP-6] is refused when the register has none, when it is another's, and when the piece is barred", () => {
    const story = given().manned();
    expect(shown(story, CART, true).refusal).toEqual({ reason: "equipmentBarred", found: "GPU-1" });
    const other = story.say("groundPower", { type: "showEquipment", label: "GPU-2" });
    expect(other.refusal).toEqual({ reason: "noSuchEquipment", found: "GPU-2" });
    expect(story.state.equipment).toBeUndefined();
  });
});

describe("the cart of a start", () => {
  const withCarts = (...carts: (typeof CART)[]) => given({ type: RICH, more: { equipment: carts } }).manned();
  const second = { ...CART, id: "GPU-2", cable: { ...CART.cable, size: "4/0" } };

  it("[EQP-8] [EQP-21] loses 2.16 V in one cable of No. 00, 60 ft out and back, at 400 A (AC 43.13-1B Table 11-9)", () => {
    const figure = cableDrop(withCarts(CART).state);
    expect(numberIn(figure)).toBeCloseTo(2.16, 3);
    // Nobody published it: the house entered it.
    expect(figure?.inputs.map((i) => i.source)).toContain("the house's register: GPU-1, North cart");
    expect(figure?.inputs.some((i) => /^published: .*GPU-1/.test(i.source))).toBe(false);
  });

  it("[EQP-8] is the one whose label was read last, else the first of the plan, else the type's", () => {
    const story = withCarts(CART, second);
    expect(cartOf(story.state)?.id).toBe("GPU-1");
    story.equipment = { facts: second, barred: false };
    story.say("groundPower", { type: "showEquipment", label: "GPU-2" });
    expect(cartOf(story.state)?.id).toBe("GPU-2");
    expect(numberIn(cableDrop(story.state))).toBeCloseTo(1.44, 3);
    expect(cartRules(given({ type: RICH }).state)).toEqual(RICH.electrical?.cart);
  });

  it("[EQP-8] sags by its own cable and its own ohms: 28 V - I (R inside + R cable)", () => {
    const on = (internalOhm: number | null) => {
      const story = given({ type: RICH, more: { equipment: [{ ...CART, internalOhm }] } }).manned();
      story.upTo("groundPower").power(28);
      return numberIn(expectedVolts(story.state, 1));
    };
    const amps = RICH.electrical?.starter.breakaway.value ?? 0;
    // 60 ft of 0.09 ohm per 1000 ft.
    expect(on(0)).toBeCloseTo(28 - amps * 0.0054, 3);
    expect(on(0.002)).toBeCloseTo(28 - amps * 0.0074, 3);
  });

  it("[EQP-8] is remarked when one cable carries more than the table's amperes, and beyond the cart's own", () => {
    // Table 11-9 lets No. 00 at 105 degC carry 147 A in a bundle.
    expect(cableDrop(withCarts(CART).state)?.caution).toContain(
      "400 A go through one cable of size 2/0: the table lets it carry 147 A",
    );
    const three = { ...CART, cable: { ...CART.cable, parallel: 3 } };
    expect(cableDrop(withCarts(three).state)?.caution).toBeUndefined();
    const weak = cableDrop(withCarts({ ...three, continuousA: 300, peakA: 350 }).state);
    expect(weak?.verdict).toBe("caution");
    expect(weak?.caution).toContain("GPU-1 gives 350 A at most");
    expect(weak?.caution).toContain("GPU-1 gives 300 A all the time");
  });
});
