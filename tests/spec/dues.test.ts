import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { duesCalendar } from "../../server/house/calendar.ts";
import { type Due, type DuesFrom, duesOf } from "../../shared/dues/dues.ts";
import { inspectionFaults } from "../../shared/dues/inspection.ts";
import { bareAircraft } from "../../shared/house/aircraft.ts";
import { ALL_BAR } from "../../shared/house/house.ts";
import { dueLine } from "../../shared/words/dues.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { FOUR } from "./aircraft.ts";
import { BOTTLE, CHOCKS, FIFTY, FIRE, keptAs, YEARLY } from "./equipped.ts";

const DAY = 24 * 3_600_000;
/** The day after the last day of the yearly inspection: 1 January and 365 days. */
const END = Date.UTC(2027, 0, 2);
const NO_STARTS = { from: null, each: [] };
const PART = { serial: null, hours: null };

/** Returns an aircraft of the house whose engine 2 has these hours. */
const bird = (hours: number | null) => ({
  ...bareAircraft({ id: "CH-TST", name: "Test bird", typeId: FOUR.id }),
  fitted: [{ n: 2, engine: { serial: "E-2", hours }, propeller: PART, starter: null }],
});

const house = (over: Partial<DuesFrom> = {}): DuesFrom => ({
  ...{ currencies: [], people: [], equipment: [], overdue: ALL_BAR, inspections: [] },
  aircraft: [{ entry: bird(420), type: null, engines: [], starts: NO_STARTS }],
  ...over,
});

describe("an inspection by days", () => {
  const is = (now: number, last = YEARLY.last) =>
    duesOf(house({ inspections: [{ ...YEARLY, last }] }), now).map((d) => [d.is, d.until]);

  it("[DUE-1] [DUE-3] is shown its days before, and is over when its last day has ended", () => {
    expect(is(END - 30 * DAY - 1)).toEqual([["later", END]]);
    expect(is(END - 30 * DAY)).toEqual([["soon", END]]);
    expect(is(END - 1)).toEqual([["soon", END]]);
    expect(is(END)).toEqual([["over", END]]);
  });

  it("[DUE-4] counts as over while nobody entered when it was done", () => {
    expect(is(0, null)).toEqual([["over", null]]);
  });

  it("[DUE-3] is not due while it or its aircraft is retired", () => {
    expect(duesOf(house({ inspections: [{ ...YEARLY, retired: true }] }), END)).toEqual([]);
    const aircraft = [{ entry: { ...bird(420), retired: true }, type: FOUR, engines: [], starts: NO_STARTS }];
    expect(duesOf(house({ inspections: [YEARLY], aircraft }), END)).toEqual([]);
  });
});

describe("an inspection by hours", () => {
  const at = (hours: number | null, over: object = {}) =>
    duesOf(
      house({
        inspections: [{ ...FIFTY, ...over }],
        aircraft: [{ entry: bird(hours), type: null, engines: [], starts: NO_STARTS }],
      }),
      0,
    ).map((d) => [d.is, d.of === "inspection" ? d.hoursLeft : null]);

  it("[DUE-2] is due at the hours of its last time and those between two", () => {
    expect(at(444.9)).toMatchObject([["later", expect.closeTo(5.1)]]);
    expect(at(445)).toEqual([["soon", 5]]);
    expect(at(450)).toEqual([["over", 0]]);
    expect(at(453)).toEqual([["over", -3]]);
  });

  it("[DUE-2] [DUE-4] counts as over when the hours now or then are not known", () => {
    expect(at(null)).toEqual([["over", null]]);
    expect(at(420, { last: null })).toEqual([["over", null]]);
    expect(at(420, { engine: 3 })).toEqual([["over", null]]);
  });
});

describe("an inspection by starts", () => {
  const LAST = Date.UTC(2026, 9, 1);
  const last = { day: "2026-10-01", hours: null };
  const HUNDRED = { ...FIFTY, id: "plugs", last, every: { by: "starts" as const, starts: 10, ahead: 3 } };
  /** Sessions a day apart, in each of which number 2 was engaged twice and number 1 once. */
  const starts = (count: number, first = LAST) =>
    Array.from({ length: count }, (_, i) =>
      [2, 2, 1].map((n, k) => ({ at: first + i * DAY + k, n, session: `s-${i}` })),
    ).flat();
  const is = (count: number, over: object = {}, known: object = {}) =>
    duesOf(
      house({
        inspections: [{ ...HUNDRED, ...over }],
        aircraft: [
          {
            entry: bird(420),
            type: null,
            engines: [],
            starts: { from: null, each: starts(count), ...known },
          },
        ],
      }),
      END,
    ).map((d) => [d.is, d.of === "inspection" ? d.startsLeft : null]);

  it("[DUE-6] counts the engagements at its engine's place since the day it was done, that day's too", () => {
    expect([is(0), is(3), is(4), is(5), is(6)]).toEqual([
      [["later", 10]],
      [["later", 4]],
      [["soon", 2]],
      [["over", 0]],
      [["over", -2]],
    ]);
    expect(is(6, {}, { each: starts(6, LAST - 2 * DAY) })).toEqual([["soon", 2]]);
  });

  it("[DUE-6] of the whole aircraft counts its sessions", () => {
    expect([is(7, { engine: null }), is(10, { engine: null })]).toEqual([[["soon", 3]], [["over", 0]]]);
  });

  it("[DUE-6] counts as over when nobody knows when it was done, or older starts are not read", () => {
    expect(is(0, { last: null })).toEqual([["over", null]]);
    expect(is(0, {}, { from: LAST + 1 })).toEqual([["over", null]]);
    expect(is(0, {}, { from: LAST })).toEqual([["later", 10]]);
  });

  it("[DUE-6] says in words how many starts are left, over or not known", () => {
    const when = (language: "en" | "es", count: number, over: object = {}) => {
      const aircraft = [
        { entry: bird(420), type: null, engines: [], starts: { from: null, each: starts(count) } },
      ];
      const [due] = duesOf(house({ inspections: [{ ...HUNDRED, ...over }], aircraft }), END);
      return due && dueLine(due, SPOKEN[language]).when;
    };
    expect([when("en", 4), when("en", 5), when("en", 6), when("en", 0, { last: null })]).toEqual([
      "2 starts left",
      "0 starts left",
      "over by 2 starts",
      "starts not known",
    ]);
    expect([when("es", 4), when("es", 6)]).toEqual(["quedan 2 arranques", "vencido por 2 arranques"]);
  });
});

describe("an inspection's entry", () => {
  const faults = (entry: object) =>
    inspectionFaults({ ...FIFTY, ...entry }, bird(420)).map(({ path }) => path);

  it("[DUE-1] by hours names a place and the hours of its last time; by days it has no hours", () => {
    expect(faults({})).toEqual([]);
    expect(faults({ engine: null, last: { day: "2026-10-01", hours: null } })).toEqual([
      "engine",
      "last.hours",
    ]);
    expect(faults({ every: { ...FIFTY.every, ahead: 51 } })).toEqual(["every.ahead"]);
    const days = { ...YEARLY, every: { by: "days", days: 10, ahead: 11 }, last: FIFTY.last };
    expect(faults(days)).toEqual(["last.hours", "every.ahead"]);
    const starts = { ...YEARLY, every: { by: "starts", starts: 10, ahead: 11 }, last: FIFTY.last };
    expect(faults(starts)).toEqual(["last.hours", "every.ahead"]);
    expect(inspectionFaults(YEARLY, null).map(({ path }) => path)).toEqual(["aircraft"]);
  });
});

describe("the list of dues", () => {
  const GUARD = {
    mayHold: ["fireGuard"] as const,
    dates: { fire: "2026-12-31" },
    starts: {},
    rehearsals: {},
  };
  const all = house({
    currencies: [FIRE],
    people: [{ id: "bo", name: "Bo Tregear", kept: GUARD }],
    equipment: [
      keptAs(BOTTLE),
      keptAs(CHOCKS),
      keptAs({ ...BOTTLE, id: "EXT-4" }, { out: { cause: "broken", words: "Leaks" } }),
    ],
    inspections: [YEARLY, FIFTY],
    aircraft: [
      {
        entry: bird(420),
        type: FOUR,
        engines: [{ n: 1, starter: [], blades: null, lastRanAt: END - 60_000 }],
        starts: NO_STARTS,
      },
    ],
  });
  const lines = (now: number) =>
    duesOf(all, now).map((d) => [d.is, ...Object.values(dueLine(d, SPOKEN.en)).filter(Boolean)].join(" | "));

  it("[DUE-3] [DUE-4] has what is over first, and tells whom, what, until when, and by what rule", () => {
    expect(lines(END)).toEqual([
      "over | EXT-3 | Wheeled bottle: weighed until | over since 31 Dec 2026, bars",
      "over | Bo Tregear | Fire training, fire guard | over since 31 Dec 2026, bars",
      "over | CH-TST | Yearly inspection | over since 1 Jan 2027 | Manual, p. 5-1",
      "soon | CH-TST | Turn propellers by their blades: engines 2, 3, 4 | before the next start",
      "later | EXT-3 | Wheeled bottle: tested until | until 30 Jun 2030",
      "later | CH-TST | 50 hours, engine 2 | 30 h left | Manual, p. 5-3",
    ]);
  });

  it("[DUE-3] names every engine once it has stood as long as the type's rule says", () => {
    const late = duesOf(all, END + 40 * DAY).find((d) => d.of === "blades");
    expect(late).toMatchObject({ engines: [1, 2, 3, 4] });
  });

  describe("as a calendar", () => {
    const text = (language: "en" | "es", now = END) => duesCalendar(duesOf(all, now), SPOKEN[language], now);

    it.each(["en", "es"] as const)(
      "[DUE-5] in %s has lines of at most 75 octets that end in CRLF (RFC 5545 section 3.1)",
      (language) => {
        const long = { ...YEARLY, name: "Inspección de los magnetos, bujías y cables de los dos lados, añó" };
        const dues = duesOf({ ...all, inspections: [long] }, END);
        const calendar = duesCalendar(dues, SPOKEN[language], END);
        expect(calendar.endsWith("END:VCALENDAR\r\n")).toBe(true);
        const rows = calendar.split("\r\n");
        expect(rows.some((row) => row.includes("\n"))).toBe(false);
        for (const row of rows) expect(Buffer.byteLength(row), row).toBeLessThanOrEqual(75);
      },
    );

    it("[DUE-5] has one event of a whole day for each last day, with the properties that RFC 5545 requires", () => {
      const calendar = new ICAL.Component(ICAL.parse(text("en")));
      expect(calendar.getFirstPropertyValue("version")).toBe("2.0");
      expect(calendar.getFirstPropertyValue("prodid")).toMatch(/Chockside/);
      const events = calendar.getAllSubcomponents("vevent");
      expect(
        events.map((e) => [
          e.getFirstPropertyValue("dtstart")?.toString(),
          e.getFirstPropertyValue("summary"),
        ]),
      ).toEqual([
        ["2026-12-31", "EXT-3: Wheeled bottle: weighed until"],
        ["2026-12-31", "Bo Tregear: Fire training, fire guard"],
        ["2027-01-01", "CH-TST: Yearly inspection"],
        ["2030-06-30", "EXT-3: Wheeled bottle: tested until"],
      ]);
      for (const event of events) {
        expect(event.getFirstPropertyValue("dtstamp")?.toString()).toBe("2027-01-02T00:00:00Z");
        expect(event.getFirstPropertyValue("description")).toMatch(/licensed people/);
      }
      // Section 3.8.2.2: the end of an event of days is the day after its last.
      expect(events[0]?.getFirstPropertyValue("dtend")?.toString()).toBe("2027-01-01");
    });

    it("[DUE-5] keeps the UID of a due whose day moves, and gives no two the same", () => {
      const uids = (dues: readonly Due[]) =>
        new ICAL.Component(ICAL.parse(duesCalendar(dues, SPOKEN.en, END)))
          .getAllSubcomponents("vevent")
          .map((e) => e.getFirstPropertyValue("uid"));
      const before = uids(duesOf(all, END));
      const done = { ...YEARLY, last: { day: "2027-01-02", hours: null } };
      const after = uids(duesOf({ ...all, inspections: [done, FIFTY] }, END));
      expect(new Set(before).size).toBe(4);
      expect(new Set(after)).toEqual(new Set(before));
    });
  });
});
