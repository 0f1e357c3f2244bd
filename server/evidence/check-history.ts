import { createHash } from "node:crypto";
import { type HistoryManifest, historyManifestSchema } from "../../shared/evidence/history.ts";
import { fromHex } from "../../shared/evidence/note.ts";
import { faultOfEnd } from "../../shared/evidence/signedExport.ts";
import { manifestSchema } from "../../shared/evidence/verify.ts";
import type { FileCheck, Kept } from "./check.ts";
import { noteTools } from "./note-tools.ts";

type Check = (text: string, kept: Kept) => FileCheck;

/** Returns the manifest of an aircraft's whole history; null for any other file. */
export function historyManifestOf(text: string): HistoryManifest | null {
  const read = historyManifestSchema.safeParse(parse(text.slice(0, Math.max(0, text.indexOf("\n")))));
  return read.success ? read.data : null;
}

/**
 * Checks an aircraft's whole history: the signature of the whole, that it holds the records that its manifest names in
 * their order and no other line, and each record as a file of its own.
 * @param check checks the export of one record
 */
export function checkHistory(text: string, manifest: HistoryManifest, kept: Kept, check: Check): FileCheck {
  const bad = (line: number, why: string): FileCheck => ({
    ok: false,
    vouched: false,
    says: `BAD line ${line}: ${why}`,
  });
  const { keys, checkpoints = [] } = kept;
  const { aircraft, records, key, exportedAt } = manifest;
  if (keys && !keys.includes(key)) return bad(1, `it names the key ${key}, which is not among those given`);
  if (!text.endsWith("\n")) return bad(1, "the file does not end with a line feed");
  const lines = text.slice(0, -1).split("\n");
  const last = lines.pop() ?? "";
  const digest = createHash("sha256")
    .update(`${lines.join("\n")}\n`, "utf8")
    .digest();
  const unsigned = faultOfEnd(last, digest, [fromHex(key)], noteTools);
  if (unsigned) return bad(lines.length + 1, unsigned);

  const elsewhere = checkpoints.find((note) => !records.some(({ session }) => isOf(note, session)));
  if (elsewhere !== undefined) return bad(1, "the checkpoint kept elsewhere is of no record in the file");
  let at = 1;
  let vouched = (keys ?? []).length > 0 || records.length > 0;
  const says: string[] = [];
  for (const { session, events, head } of records) {
    const part = lines.slice(at, at + events + 2);
    const read = manifestSchema.safeParse(parse(part[0] ?? ""));
    if (!read.success) return bad(at + 1, `not the manifest of the record ${session}`);
    const own = read.data;
    if (own.format !== "chockside-evidence-2") return bad(at + 1, "a record in it is not signed");
    if (own.session !== session || own.events !== events || own.head !== head || own.aircraft !== aircraft)
      return bad(at + 1, `it is not the record ${session} of ${aircraft} that the file names`);
    if (own.keys[0] !== key) return bad(at + 1, "it is signed by another key than the file");
    const noted = checkpoints.filter((note) => isOf(note, session));
    const found = check(`${part.join("\n")}\n`, {
      ...(keys ? { keys } : {}),
      ...(noted.length > 0 ? { checkpoints: noted } : {}),
    });
    if (!found.ok) return bad(at + 1, `the record ${session}: ${found.says}`);
    vouched = vouched && found.vouched;
    says.push(found.says.split("\n")[0] ?? "");
    at += part.length;
  }
  if (at !== lines.length) return bad(at + 1, "a line that belongs to no record that the file names");
  const total = records.reduce((sum, { events }) => sum + events, 0);
  return {
    ok: true,
    vouched,
    says: [
      `${vouched ? "OK" : "WHOLE"} the history of ${aircraft}: ${records.length} records, ${total} events, exported ${exportedAt}`,
      ...says,
      `The whole file is signed by key ${key}`,
      ...(vouched ? [] : [UNVOUCHED]),
    ].join("\n"),
  };
}

const UNVOUCHED =
  "This shows that nothing was changed since. That whoever keeps the key did not write it anew as a whole is shown only " +
  "by what was noted elsewhere: --key KEY, or a --checkpoint FILE of each record.";

/** Returns true if a checkpoint names this record. Whether it is signed is checked with the record. */
function isOf(note: string, session: string): boolean {
  return note.startsWith(`chockside/session/${session}\n`);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
