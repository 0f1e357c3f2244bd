import { describe, expect, it } from "vitest";
import { NOTHING_RAISED } from "../../shared/history/happened.ts";
import { isNuisance } from "../../shared/history/house/alerts.ts";
import { houseCsv } from "../../shared/history/house/csv.ts";
import { houseFigures, LEAST_STARTS, type SessionStarts } from "../../shared/history/house/figures.ts";
import { houseFiguresSchema } from "../../shared/history/house/schema.ts";
import { weekOf, weeksBefore } from "../../shared/history/house/weeks.ts";
import type { StartAlert, StartRow, StartStop } from "../../shared/history/row.ts";
import { readCsv } from "../../shared/house/lists/csv.ts";
import { ALERT_KINDS } from "../../shared/protocol/alerts.ts";
import { REFUSAL_REASONS } from "../../shared/protocol/refusals.ts";
import { say as ENGLISH } from "../../shared/words/en.ts";
import { say as SPANISH } from "../../shared/words/es.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { FIRST_DAY, startRow } from "./rows.ts";

const MINUTE = 60_000;
const DAY = 1440 * MINUTE;

const alert = (more: Partial<StartAlert> = {}): StartAlert => ({
  kind: "unanswered",
  engine: null,
  id: 1,
  at: FIRST_DAY,
  ended: FIRST_DAY + MINUTE,
  shelved: false,
  acted: true,
  ...more,
});
const hold = (more: Partial<StartStop> = {}): StartStop => ({
  is: "hold",
  id: 9,
  at: FIRST_DAY,
  ended: FIRST_DAY + 3 * MINUTE,
  by: "Dot",
  post: "fireGuard",
  reason: "Dog on the ramp",
  ...more,
});
const session = (rows: readonly StartRow[], at = rows[0]?.at ?? FIRST_DAY): SessionStarts => ({
  at,
  rows,
  early: NOTHING_RAISED,
});
const many = (count: number, more: (i: number) => Partial<StartRow> = () => ({})) =>
  Array.from({ length: count }, (_, i) => session([startRow(i + 1, more(i))]));

describe("the figures of a house", () => {
  // ISO 8601: 2026-01-01 is a Thursday, so the first week of 2026 begins on Monday, 2025-12-29.
  it("[HIS-21] count starts by week, from Monday, with those that caught and sessions without a start", () => {
    expect(new Date(weekOf(FIRST_DAY)).toISOString()).toBe("2025-12-29T00:00:00.000Z");
    expect(weekOf(Date.UTC(2025, 11, 29))).toBe(Date.UTC(2025, 11, 29));
    expect(weekOf(Date.UTC(2025, 11, 29) - 1)).toBe(Date.UTC(2025, 11, 22));
    const weeks = weeksBefore(FIRST_DAY + 10 * DAY, 3);
    expect(weeks.map((w) => new Date(w).toISOString().slice(0, 10))).toEqual([
      "2025-12-22",
      "2025-12-29",
      "2026-01-05",
    ]);
    const sessions = [
      session([startRow(1), startRow(1, { reached: "cranked" })]),
      session([], FIRST_DAY + DAY),
      session([startRow(6)]),
    ];
    expect(houseFigures(sessions, weeks).weeks.map(({ from: _, ...w }) => w)).toEqual([
      { starts: 0, caught: 0, unstarted: 0 },
      { starts: 2, caught: 1, unstarted: 1 },
      { starts: 1, caught: 1, unstarted: 0 },
    ]);
  });

  it("[HIS-22] tell what delayed: holds with their minutes and refusals, by post, reason and condition", () => {
    const refusal = { at: FIRST_DAY, post: "cockpit", reason: "conditionsUnmet" } as const;
    const early = {
      ...NOTHING_RAISED,
      // It was never released: the record gives it no length.
      stops: [hold({ ended: null, post: null, reason: " " })],
      refusals: [{ ...refusal, reason: "wrongPost" as const, post: "fireGuard" as const, conditions: [] }],
    };
    const rows = [
      startRow(1, {
        stops: [hold(), hold({ ended: FIRST_DAY + MINUTE }), hold({ is: "cut", reason: null })],
        refusals: [
          { ...refusal, conditions: ["guardInPlace", "groundPowerKnown"] },
          { ...refusal, conditions: ["groundPowerKnown"] },
        ],
      }),
    ];
    const figures = houseFigures([{ ...session([]), early }, session(rows)], []);
    expect(figures).toMatchObject({ sessions: 2, unstarted: 1, starts: 1 });
    expect(figures.posts).toEqual([
      { post: "fireGuard", holds: 2, heldMin: 4, refusals: 1 },
      { post: "cockpit", holds: 0, heldMin: 0, refusals: 2 },
      { post: null, holds: 1, heldMin: 0, refusals: 0 },
    ]);
    expect(figures.holds).toEqual([
      { reason: "Dog on the ramp", times: 2, heldMin: 4 },
      { reason: null, times: 1, heldMin: 0 },
    ]);
    expect(figures.conditions).toEqual([
      { condition: "groundPowerKnown", times: 2 },
      { condition: "guardInPlace", times: 1 },
    ]);
    expect(figures.refusals).toEqual([
      { reason: "conditionsUnmet", times: 2 },
      { reason: "wrongPost", times: 1 },
    ]);
  });

  it("[HIS-23] call an alert a nuisance that was put aside, or was over in seconds without an act", () => {
    const brief = { ended: FIRST_DAY + 9_999, acted: false };
    expect(isNuisance(alert())).toBe(false);
    expect(isNuisance(alert({ shelved: true }))).toBe(true);
    expect(isNuisance(alert(brief))).toBe(true);
    expect(isNuisance(alert({ ...brief, acted: true }))).toBe(false);
    expect(isNuisance(alert({ ...brief, ended: FIRST_DAY + 10_000 }))).toBe(false);
    expect(isNuisance(alert({ ended: null, acted: false }))).toBe(false);
    const both = { ...brief, shelved: true };
    const sessions = many(LEAST_STARTS, (i) =>
      i === 0 ? { alerts: [alert(both), alert(brief), alert(), alert({ kind: "oilLost" })] } : {},
    );
    const { alerts } = houseFigures(sessions, []);
    expect(alerts).toMatchObject({ raised: 4, perStart: 0.2, nuisance: 2, nuisancePerStart: 0.1 });
    expect(alerts.kinds).toEqual([
      { kind: "unanswered", raised: 3, perStart: 0.15, shelved: 1, brief: 2, nuisance: 2 },
      { kind: "oilLost", raised: 1, perStart: 0.05, shelved: 0, brief: 0, nuisance: 0 },
    ]);
  });

  it("[HIS-23] give no rate of too few starts, and say how many are needed", () => {
    const few = houseFigures(
      many(LEAST_STARTS - 1, () => ({ alerts: [alert()], touches: 2 })),
      [],
    );
    expect([few.few, few.least, few.alerts.raised, few.alerts.perStart]).toEqual([true, 20, 19, null]);
    expect([few.alerts.nuisancePerStart, few.alerts.kinds[0]?.perStart]).toEqual([null, null]);
    expect(few.touches[0]?.perStart).toBeNull();
    const enough = houseFigures(
      many(LEAST_STARTS, () => ({ alerts: [alert()] })),
      [],
    );
    expect([enough.few, enough.alerts.perStart]).toEqual([false, 1]);
    expect(houseFigures([], [])).toMatchObject({ sessions: 0, starts: 0, few: true });
  });

  it("[HIS-37] tell what delayed the starts of each piece of equipment, the most for each start first", () => {
    const refusal = { at: FIRST_DAY, post: null, reason: "wrongPost" as const, conditions: [] };
    const sessions = [
      ...many(20, (i) => ({ equipment: ["CART-1", "EXT-1"], stops: i < 2 ? [hold()] : [] })),
      // A cut is no delay. A label that stands twice is one piece.
      ...many(2, () => ({
        equipment: ["CART-2", "CART-2"],
        refusals: [refusal],
        stops: [hold({ is: "cut" })],
      })),
      ...many(1, () => ({ stops: [hold()] })),
    ];
    const figures = houseFigures(sessions, []);
    const first = { label: "CART-1", starts: 20, holds: 2, heldMin: 6, refusals: 0, perStart: 0.1 };
    expect(figures.equipment).toEqual([
      { label: "CART-2", starts: 2, holds: 0, heldMin: 0, refusals: 2, perStart: null },
      first,
      { ...first, label: "EXT-1" },
    ]);
    expect(houseFiguresSchema.parse(figures)).toEqual(figures);
    const read = readCsv(houseCsv(figures));
    if (!("rows" in read)) throw new Error("not a table");
    const cells = read.rows.map((r) => r.cells).filter((c) => c[0] === "equipment" && c[1] === "CART-1");
    expect(cells.map((c) => [c[2], c[3], c[4]])).toEqual([
      ["starts", "20", "count"],
      ["holds", "2", "count"],
      ["held", "6", "min"],
      ["refusals", "0", "count"],
      ["holds and refusals per start", "0.1", "1/start"],
    ]);
  });

  it("[HIS-24] count touches of presence by engine, under its serial wherever it was", () => {
    const sessions = [
      ...many(20, () => ({ touches: 3 })),
      ...many(2, () => ({ touches: 1, aircraft: "QX-TWO", n: 1 })),
      ...many(1, () => ({ touches: 9, serial: null })),
    ];
    const figures = houseFigures(sessions, []);
    expect(figures.touches).toEqual([
      { aircraft: "QX-ONE", n: 2, serial: null, starts: 1, touches: 9, perStart: null },
      { aircraft: "QX-TWO", n: 1, serial: "E-2", starts: 22, touches: 62, perStart: 62 / 22 },
    ]);
    expect(houseFiguresSchema.parse(figures)).toEqual(figures);
  });
});

describe("the words of a house's figures", () => {
  it.each([
    ["English", ENGLISH, "No guard is reported at number …."],
    ["Spanish", SPANISH, "No hay guardia reportado en motor …."],
  ])("[HIS-26] stand for any engine, post and finding: %s", (_name, say, guardMissing) => {
    expect(say.anyAlert("guardMissing")).toBe(guardMissing);
    const all = [...ALERT_KINDS.map(say.anyAlert), ...REFUSAL_REASONS.map(outcomesOf(say).anyRefusal)];
    for (const said of all) expect(said).not.toMatch(/[{}]|undefined| \.|: ?\.$/);
    expect(all.filter((said) => said.includes("…")).length).toBeGreaterThan(10);
    expect(new Set(all).size).toBeGreaterThan(all.length / 2);
  });
});
