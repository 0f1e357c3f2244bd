import { createHash } from "node:crypto";
import { fromHex } from "../../shared/evidence/note.ts";
import { faultOfEnd } from "../../shared/evidence/signedExport.ts";
import { CAUTION, REHEARSED } from "./caution.ts";
import type { FileCheck, Kept } from "./check.ts";
import { cell, signedRow } from "./csv.ts";
import { noteTools } from "./note-tools.ts";

const ROW = "\r\n";

const begins = (text: string, caution: string): boolean => text.startsWith(`${cell(caution)},`);
const isRehearsal = (text: string): boolean => begins(text, REHEARSED + CAUTION);

export const isTable = (text: string): boolean => begins(text, CAUTION) || isRehearsal(text);

/**
 * Checks the signature in the last row of a table. A table names no key and does not contain the record's exact
 * bytes.
 */
export function checkTable(text: string, { keys = [], checkpoints = [] }: Kept): FileCheck {
  const bad = (why: string): FileCheck => ({ ok: false, vouched: false, says: `BAD table: ${why}` });
  if (keys.length === 0) return bad("it names no key: give the one that was noted elsewhere by --key");
  if (checkpoints.length > 0) return bad("checkpoints are held against NDJSON or JSON, not against a table");
  const begin = text.lastIndexOf(ROW, text.length - ROW.length - 1) + ROW.length;
  const [before, last] = [text.slice(0, begin), text.slice(begin)];
  const line = /^"(\{.*\})",+\r\n$/.exec(last)?.[1]?.replaceAll('""', '"') ?? "";
  // Compare exactly: the signature does not cover what follows it.
  const exact = line !== "" && signedRow(line) === last;
  const digest = createHash("sha256").update(before, "utf8").digest();
  const why = faultOfEnd(exact ? line : "", digest, keys.map(fromHex), noteTools);
  if (why !== null) return bad(why);
  const says =
    "OK the table is the one that was signed. The exact record, event by event, is in NDJSON or JSON.";
  return {
    ok: true,
    vouched: true,
    says: isRehearsal(text) ? `${says}\n${REHEARSED.trim()}` : says,
  };
}
