import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { yearStarts } from "../../seed/year/starts.ts";
import { year } from "../../seed/year/year.ts";
import { NO_STARTS, startsAfter } from "../../shared/history/project.ts";

const NOW = Date.UTC(2026, 10, 29, 12);
const DAY = 86_400_000;

describe("the demo's invented year", () => {
  it("[HIS-14] is the same for the same seed, and over before today", () => {
    const starts = yearStarts(NOW, 1);
    expect(yearStarts(NOW, 1)).toEqual(starts);
    expect(yearStarts(NOW, 2)).not.toEqual(starts);
    expect(starts.every((s) => s.at < NOW - DAY / 2 && s.at > NOW - 366 * DAY)).toBe(true);
    expect([...new Set(starts.map((s) => s.aircraft))].sort()).toEqual(["QX-CTD", "QX-PEN"]);
    expect(starts.map((s) => s.at)).toEqual(starts.map((s) => s.at).sort((a, b) => a - b));
  });

  it("[HIS-14] wears the parts it says, and no others", () => {
    const starts = yearStarts(NOW, 1);
    const of = (aircraft: string) => starts.filter((s) => s.aircraft === aircraft);
    const last = (aircraft: string) => of(aircraft).at(-1)?.wear;
    expect(last("QX-PEN")?.oilS?.[2]).toBeGreaterThan(9);
    expect(last("QX-PEN")?.oilS?.[1]).toBeLessThan(7);
    expect(last("QX-CTD")?.crank?.[3]).toBeGreaterThan(1.3);
    expect(last("QX-CTD")?.sagV).toBeGreaterThan(0.5);
    for (const { wear } of starts.slice(0, 40)) {
      expect(Math.max(...Object.values(wear.oilS ?? {}))).toBeLessThan(7);
      expect([wear.crank?.[3] ?? 1, wear.sagV]).toEqual([1, 0]);
    }
  });

  it("[HIS-14] is played by the demo's people, each at one post, to the end of the start", async () => {
    const { starts, play } = year(NOW);
    const nth = starts.findIndex((s) => s.aircraft === "QX-PEN");
    const type = demo.types.find((t) => t.id === "penhale-twin");
    if (!type) throw new Error("the demo has a twin");
    const { state, events } = await play(nth, { id: "s-year", type, fitted: [] });
    expect([state.stage, state.aircraft]).toEqual(["closed", "QX-PEN"]);
    const { rows } = startsAfter(NO_STARTS, events);
    expect(rows.filter((r) => r.reached === "stable")).toHaveLength(2);
    const crew = Object.values(rows[0]?.crew ?? {});
    expect(new Set(crew).size).toBe(4);
    expect(crew.every((name) => demo.people.some((p) => p.name === name))).toBe(true);
  });
});
