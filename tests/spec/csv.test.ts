import fc from "fast-check";
import { expect, it } from "vitest";
import { readCsv, withoutGuard, writeCsv } from "../../shared/house/lists/csv.ts";
import { readList } from "../../shared/house/lists/list.ts";

const cells = (text: string) => {
  const read = readCsv(text);
  return "rows" in read ? read.rows.map((r) => r.cells) : read.faults;
};
const ABC = ["aaa", "bbb", "ccc"];
const ZYX = ["zzz", "yyy", "xxx"];

/** The examples of RFC 4180, section 2, by their numbers there. */
it.each<[number, string, string[][]]>([
  [1, "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [ABC, ZYX]],
  [2, "aaa,bbb,ccc\r\nzzz,yyy,xxx", [ABC, ZYX]],
  [
    3,
    "field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
    [["field_name", "field_name", "field_name"], ABC, ZYX],
  ],
  [4, "aaa,bbb,ccc", [ABC]],
  [5, '"aaa","bbb","ccc"\r\nzzz,yyy,xxx', [ABC, ZYX]],
  [6, '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [["aaa", "b\r\nbb", "ccc"], ZYX]],
  [7, '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
])("[HSE-21] a file is read as RFC 4180 section 2, %i, says", (_number, text, wanted) => {
  expect(cells(text)).toEqual(wanted);
});

it("[HSE-21] spaces belong to a cell (RFC 4180 section 2, 4), and what spreadsheets add is left out", () => {
  expect(cells(" aaa , bbb\r\n")).toEqual([[" aaa ", " bbb"]]);
  expect(cells("\uFEFFaaa,bbb\n\nzzz,\n")).toEqual([
    ["aaa", "bbb"],
    ["zzz", ""],
  ]);
});

it.each<[string, string, object]>([
  ["a quotation mark within a plain cell", 'aaa,b"b\r\n', { line: 1 }],
  ["text after a quoted cell", 'aaa\r\n"b"b,c\r\n', { line: 2 }],
  ["a quoted cell without its end", 'aaa\r\n"bbb\r\nccc', { line: 2 }],
])("[HSE-21] %s is refused with its line", (_what, text, place) => {
  expect(cells(text)).toMatchObject([{ ...place, column: null }]);
});

it("[HSE-21] whatever is written is read again", () => {
  const cell = fc.string({ unit: fc.constantFrom(..."ab=+-@'\",;\t ＝") });
  const rows = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { maxLength: 5 });
  fc.assert(
    fc.property(rows, (all) => {
      const read = readCsv(writeCsv(all));
      expect("rows" in read && read.rows.map((r) => r.cells.map(withoutGuard))).toEqual(all);
    }),
  );
});

/** The first characters that OWASP's page on CSV Injection names, from memory of that page. */
it.each(["=", "+", "-", "@", "\t", "\r"])(
  "[HSE-22] a cell that begins with %j is written as text",
  (first) => {
    const attack = `${first}cmd|' /C calc'!A0`;
    const written = writeCsv([[attack, "x"]]);
    expect(written.startsWith(`"'${first}`)).toBe(true);
    const read = readCsv(written);
    expect("rows" in read && read.rows[0]?.cells.map(withoutGuard)).toEqual([attack, "x"]);
  },
);

it("[HSE-21] a list names its columns, has its key once on each line, and may be separated by semicolons", () => {
  const columns = ["label", "name"];
  const list = (text: string) => readList(text, columns, "label");
  expect(list("label;name\r\nA-1;Cart; \r\n")).toMatchObject({ faults: [{ line: 2, column: null }] });
  expect(list("label;name\r\nA-1;Cart, north\r\n")).toEqual({
    rows: [{ line: 2, cells: { label: "A-1", name: "Cart, north" } }],
  });
  expect(list("name\r\nx\r\n")).toMatchObject({ faults: [{ line: 1, column: null }] });
  expect(list("label,colour\r\n")).toMatchObject({ faults: [{ line: 1, column: "colour" }] });
  expect(list("label,label\r\n")).toMatchObject({ faults: [{ line: 1, column: "label" }] });
  expect(list("label,name\r\nA-1,x\r\na-1,y\r\n,z\r\n")).toMatchObject({
    faults: [
      { line: 3, column: "label" },
      { line: 4, column: "label" },
    ],
  });
});
