import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import pack from "../../package.json" with { type: "json" };
import { checkFile } from "../../server/evidence/check-file.ts";
import { Sheet } from "../../server/print/sheet.ts";
import { readCsv } from "../../shared/house/lists/csv.ts";
import { VersionLine } from "../../web/ui/VersionLine.tsx";
import { testSigner } from "../http/test-signer.ts";
import { readPdf } from "../print/reader.ts";
import { given, START } from "../spec/given.ts";
import { exportText, SMALL } from "./exported.ts";

const PROGRAM = `Chockside ${pack.version}`;
const story = given({ type: SMALL });
story.say("supervisor", { type: "claimPost", post: "supervisor" });
const { log } = story;

describe("[OPS-26] the version", () => {
  it("stands in the manifest of an exported record, which is whole with it", async () => {
    const text = await exportText(log);
    expect(JSON.parse(text.split("\n")[0] ?? "")).toMatchObject({ program: PROGRAM });
    expect(checkFile(text).ok).toBe(true);
  });

  it("stands in the first row of the table, beside the caution", async () => {
    const table = await exportText(log, testSigner, "csv");
    const read = readCsv(table.slice(0, table.indexOf("\r\n")));
    expect("rows" in read && read.rows[0]?.cells.slice(1, 3)).toEqual([PROGRAM, ""]);
    expect(checkFile(table, { keys: [testSigner.publicHex] }).ok).toBe(true);
  });

  it("stands at the foot of each printed page, whatever the language", async () => {
    for (const language of ["en", "es"] as const) {
      const sheet = new Sheet({ title: "T", about: "A", now: START, caution: "C", language });
      sheet.page();
      const { pages } = await readPdf(await sheet.finish());
      expect(pages).toHaveLength(2);
      for (const page of pages) expect(page).toContain(PROGRAM);
    }
  });

  it("stands on the panels, as they were built", () => {
    expect(renderToStaticMarkup(createElement(VersionLine))).toContain(PROGRAM);
  });
});
