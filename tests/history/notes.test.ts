import { describe, expect, it } from "vitest";
import { notesOf } from "../../shared/history/notes.ts";
import { sayNote } from "../../shared/words/history.ts";
import { rowsOf, startRow } from "./rows.ts";
import { normals } from "./runs.ts";

const next = normals(21);
const BEFORE = Array.from({ length: 22 }, () => 6 + 0.4 * next());
const SLOWER = Array.from({ length: 8 }, () => 7.4 + 0.4 * next());

describe("the notes of an engine's history", () => {
  it("[HIS-10] say in one sentence what the engine does otherwise, with both figures and since when", () => {
    const [note, ...more] = notesOf(rowsOf("oilNormalS", [...BEFORE, ...SLOWER]));
    expect(more).toEqual([]);
    if (!note) throw new Error("a drift makes a note");
    expect(note).toMatchObject({ aircraft: "QX-ONE", n: 2, serial: "E-2", side: "high", session: "s-30" });
    expect(sayNote(note, "en")).toMatch(
      /^Number 2 takes longer to oil pressure than in its 20 starts from 1 Jan 2026 to 20 Jan 2026: 7\.\d+ s on average since 2\d Jan 2026, before (5\.9|6|6\.0)\d* s\.$/,
    );
    expect(sayNote(note, "es")).toMatch(
      /^El número 2 tarda más en dar presión de aceite que en sus 20 arranques del 1 ene 2026 al 20 ene 2026: 7\.\d+ s de media desde el 2\d ene 2026, antes /,
    );
  });

  it("[HIS-10] name one start beyond its limit, until the next start is within", () => {
    const notes = notesOf(rowsOf("oilNormalS", [...BEFORE.slice(0, 20), 7.45]));
    expect(notes.map((n) => n.found.is)).toEqual(["start"]);
    expect(notes[0] && sayNote(notes[0], "en")).toContain(": 7.45 s at the last start, limit ");
    expect(notesOf(rowsOf("oilNormalS", [...BEFORE.slice(0, 20), 7.45, 6]))).toEqual([]);
  });

  it("[HIS-10] keep quiet about what becomes better, about a jump alone, and about an engine without a serial", () => {
    const faster = SLOWER.map((v) => 12 - v);
    expect(notesOf(rowsOf("oilNormalS", [...BEFORE, ...faster]))).toEqual([]);
    expect(notesOf(rowsOf("warmUpMin", [...BEFORE, ...faster])).map((n) => n.side)).toEqual(["low"]);
    const nameless = rowsOf("oilNormalS", [...BEFORE, ...SLOWER]).map((r) => ({ ...r, serial: null }));
    expect(notesOf(nameless)).toEqual([]);
    expect(notesOf([])).toEqual([]);
  });

  it("[HIS-10] end where the engine was moved or overhauled", () => {
    const rows = rowsOf("oilNormalS", [...BEFORE, ...SLOWER]);
    expect(notesOf([...rows, startRow(31, { aircraft: "QX-TWO" })])).toEqual([]);
    expect(notesOf([...rows, startRow(31, { hours: 0 })])).toEqual([]);
  });
});
