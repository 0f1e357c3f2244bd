import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { historyCsv } from "../../shared/history/csv.ts";
import { NO_STARTS, startsAfter } from "../../shared/history/project.ts";
import { startRowSchema } from "../../shared/history/row.ts";
import { measuredLog } from "../../shared/paper/measuredLog.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { Measured } from "../../web/pages/history/Measured.tsx";
import { FOUR } from "../spec/aircraft.ts";
import { given, type Story } from "../spec/given.ts";

const source = { basis: "invented", text: "for tests" } as const;
const seconds = (value: number) => ({ value, unit: "s" as const, source });
const volts = (value: number) => ({ value, unit: "V" as const, source });
const measured = {
  ...{ starterBelow: volts(24), voltsWithin: volts(1) },
  ...{ starterWithin: seconds(2), oilWithin: seconds(3) },
};
const type = { ...FOUR, measured };

/** An instrument reads for one second, or for `ms`, up to now. */
function reads(
  story: Story,
  bus: number,
  oil: number | null,
  { engine = 3, ms = 1_000, least = bus } = {},
): void {
  const [from, to] = [story.now - ms, story.now];
  const of = (gauge: string, value: number, unit: "V" | "psi") => ({
    ...{ gauge, value, unit },
    ...{ least: Math.min(value, gauge === "busVolts" ? least : value), most: value },
  });
  const oilRead = oil === null ? [] : [{ ...of("oilPressure", oil, "psi"), engine }];
  const by = { account: "0123456789abcdef", name: "Logger", from, to };
  story.sent({ type: "instrumentsRead", ...by, readings: [of("busVolts", bus, "V"), ...oilRead] });
}

/** Number 3 starts; its starter draws for 8 s as the volts show, and oil pressure comes 2 s after the catch. */
function start({ of = type as typeof FOUR, saidS = 8, lowest = 19.6, oilAfter = 2 } = {}): Story {
  const story = given({ type: of }).manned().upTo("starting");
  reads(story, 28, 0);
  story.cranking(3);
  for (let s = 0; s < 8; s += 1) {
    story.wait(1);
    reads(story, 22, 0, { least: s === 2 ? lowest : 22 });
    if (s === 4)
      story.say("cockpit", { type: "reading", gauge: "busVolts", reading: { value: 20, unit: "V" } });
  }
  for (let s = 8; s < saidS; s += 1) {
    story.wait(1);
    reads(story, 28, 0);
  }
  story.send("cockpit", "caught", { engine: 3 });
  for (let s = 0; s < 4; s += 1) {
    story.wait(1);
    reads(story, 28, s + 1 < oilAfter ? 0 : 20);
  }
  story.oil(3, 20);
  return story;
}
const rowOf = (story: Story) => {
  const [row] = startsAfter(NO_STARTS, story.log).rows;
  if (!row) throw new Error("no start");
  return row;
};

describe("a start measured by instruments", () => {
  it("[INT-29] has the starter's seconds, the lowest volts and the time to oil pressure, to half a second", () => {
    const { figures, differs } = rowOf(start());
    expect(figures.starterS?.value).toBe(8);
    expect(Math.abs((figures.starterMeasuredS?.value ?? 0) - 8)).toBeLessThanOrEqual(0.5);
    expect(figures.voltsMeasured).toEqual({ value: 19.6, unit: "V" });
    expect(figures.oilFirstS?.value).toBe(4);
    expect(Math.abs((figures.oilFirstMeasuredS?.value ?? 0) - 2)).toBeLessThanOrEqual(0.5);
    expect(differs).toEqual([]);
  });

  it("[INT-29] comes from the record alone: the same events in pieces give the same", () => {
    const { log } = start();
    const whole = startsAfter(NO_STARTS, log);
    const pieces = log.reduce((history, event) => startsAfter(history, [event]), NO_STARTS);
    expect(pieces.rows).toEqual(whole.rows);
    const [row] = whole.rows;
    expect(startRowSchema.parse(JSON.parse(JSON.stringify(row)))).toEqual(row);
  });

  it("[INT-29] is not measured by a type without figures for it, or while the volts have not come back", () => {
    const { figures, differs } = rowOf(start({ of: FOUR, saidS: 30 }));
    expect([figures.starterMeasuredS, figures.voltsMeasured, figures.oilFirstMeasuredS]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(differs).toEqual([]);
    const story = given({ type }).manned().upTo("starting");
    story.cranking(3);
    story.wait(1);
    reads(story, 21, 0);
    expect(rowOf(story).figures).toMatchObject({ voltsMeasured: { value: 21 } });
    expect(rowOf(story).figures.starterMeasuredS).toBeUndefined();
  });

  it("[INT-29] an engagement takes nothing from the one before, and a start long past stays as it was measured", () => {
    const story = given({ type }).manned().upTo("starting");
    story.cranking(3);
    story.wait(1);
    reads(story, 18, 0);
    story.wait(1);
    reads(story, 28, 0);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    const first = rowOf(story);
    expect(first.figures.voltsMeasured?.value).toBe(18);
    story.wait(90);
    reads(story, 28, 0);
    story.cranking(3);
    story.wait(1);
    reads(story, 21, 0);
    const { rows } = startsAfter(NO_STARTS, story.log);
    expect(rows.map((r) => r.figures.voltsMeasured?.value)).toEqual([18, 21]);
    for (let s = 0; s < 130; s += 10) {
      story.wait(10);
      reads(story, 28, 0, { ms: 10_000 });
    }
    expect(startsAfter(NO_STARTS, story.log).rows[0]).toEqual(rows[0]);
  });

  it("[INT-29] its figures stand on a gauge that the type has", () => {
    const faults = (more: object) => {
      const read = readAircraftType({ ...type, ...more });
      return "faults" in read ? read.faults.map((f) => f.path) : [];
    };
    expect(faults({})).toEqual([]);
    expect(faults({ measured: { ...measured, starterBelow: volts(41) } })).toEqual(["measured.starterBelow"]);
    expect(faults({ gauges: type.gauges.filter((g) => g.id !== "busVolts") })).toContain("measured");
  });
});

describe("what people said of a start", () => {
  const shown = (story: Story) =>
    renderToStaticMarkup(createElement(Measured, { events: story.log })).replaceAll("\u00a0", " ");

  it("[INT-30] stands beside what was measured, on the record's page and its paper, and they agree", () => {
    const [row, ...more] = measuredLog(start().log, "en");
    expect(more).toEqual([]);
    expect(row).toMatchObject({ n: 3, attempt: 1 });
    expect(row?.cells.starter).toEqual({ said: "8 s", measured: "7.50 s", verdict: "agree", differs: false });
    expect(row?.cells.volts).toMatchObject({ said: "20 V", measured: "19.6 V", differs: false });
    expect(shown(start())).toContain("said 20 V, measured 19.6 V");
    expect(shown(start())).not.toContain("data-differs");
    expect(shown(given({ type }).manned().upTo("starting"))).toBe("");
  });

  it("[INT-30] is pointed out where it lies further off than the type allows, and is not changed", () => {
    const story = start({ saidS: 12, lowest: 17, oilAfter: 1 });
    const { figures, differs } = rowOf(story);
    expect(differs).toEqual([
      { figure: "starter", said: 12, measured: figures.starterMeasuredS?.value, within: 2 },
      { figure: "volts", said: 20, measured: 17, within: 1 },
      { figure: "oilFirst", said: 4, measured: 0.5, within: 3 },
    ]);
    expect(figures.voltsSeen?.value).toBe(20);
    expect(shown(story).match(/data-differs/g)).toHaveLength(3);
    expect(shown(story)).toContain("3 V apart, more than 1 V");
    expect(historyCsv([rowOf(story)])).toContain("volts 20 17");
    expect(measuredLog(story.log, "es")[0]?.cells.volts.verdict).toBe("3 V de diferencia, más de 1 V");
    // At the tolerance itself the two agree.
    expect(rowOf(start({ lowest: 19 })).differs).toEqual([]);
  });
});
