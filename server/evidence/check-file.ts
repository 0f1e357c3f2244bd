import { createHash } from "node:crypto";
import { fromHex } from "../../shared/evidence/note.ts";
import { pseudonymsIn } from "../../shared/evidence/pseudonyms.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { faultOfCheckpoints, faultOfEnd, faultOfNames } from "../../shared/evidence/signedExport.ts";
import { type Manifest, manifestSchema, type SignedManifest, verify } from "../../shared/evidence/verify.ts";
import { isRehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { sha256 } from "../sha256.ts";
import { REHEARSED } from "./caution.ts";
import type { FileCheck, Kept } from "./check.ts";
import { checkHistory, historyManifestOf } from "./check-history.ts";
import { checkTable, isTable } from "./check-table.ts";
import { noteTools } from "./note-tools.ts";
import { splitExport } from "./split-export.ts";

interface Fault {
  /** Line of the file, from 1. */
  line: number;
  why: string;
}

/**
 * Checks an exported record. NDJSON and JSON: the manifest, each event, the checkpoints and the signature of the
 * whole. CSV: the signature only. An aircraft's whole history: each record in it, and the signature of the whole.
 */
export function checkFile(text: string, kept: Kept = {}): FileCheck {
  if (isTable(text)) return checkTable(text, kept);
  const history = historyManifestOf(text);
  if (history) return checkHistory(text, history, kept, checkFile);
  const { lines, ended, before } = splitExport(text);
  const [first = "", ...rest] = lines;
  const bad = ({ line, why }: Fault): FileCheck => ({
    ok: false,
    vouched: false,
    says: `BAD line ${line}: ${why}`,
  });
  const read = manifestSchema.safeParse(parse(first));
  if (!read.success) return bad({ line: 1, why: "not the manifest of an exported record" });
  const manifest = read.data;
  const signed = manifest.format === "chockside-evidence-2";
  const end = signed && rest.length > manifest.events ? rest.pop() : undefined;

  const result = verify(rest, manifest, sha256);
  // Line 1 of the file is the manifest, so event line n is line n + 1.
  if (!result.ok) return bad({ line: result.line + 1, why: result.why });
  const fault = signed ? signatureFault(manifest, rest, end ?? "", kept) : unsignedFault(kept);
  if (fault) return bad(fault);
  if (signed && !ended) return bad({ line: lines.length, why: "the file does not end with a line feed" });
  return {
    ok: true,
    vouched: isVouched(kept),
    says: saysOf(
      "stage" in result.state ? typeLine(rest[0] ?? "") : [],
      manifest,
      result.events,
      result.head,
      "stage" in result.state ? result.state.stage : "the aircraft's own record",
      kept,
      pseudonymsIn(rest.join("\n")),
    ),
  };

  function signatureFault(
    m: SignedManifest,
    events: string[],
    last: string,
    { keys, checkpoints = [] }: Kept,
  ) {
    const unknown = keys && m.keys.find((key) => !keys.includes(key));
    if (unknown) return { line: 1, why: `it names the key ${unknown}, which is not among those given` };
    const named = faultOfNames(m, sha256);
    if (named) return { line: 1, why: named };
    const found = faultOfCheckpoints(events, m, checkpoints, noteTools);
    if (found) return { ...found, line: found.line + 1 };
    const digest = createHash("sha256").update(before(events), "utf8").digest();
    const why = faultOfEnd(last, digest, m.keys.slice(0, 1).map(fromHex), noteTools);
    return why === null ? null : { line: events.length + 2, why };
  }
}

const isVouched = ({ keys = [], checkpoints = [] }: Kept): boolean => keys.length + checkpoints.length > 0;

/** The first format has no signature, so it fails when the caller asks for one. */
function unsignedFault({ keys, checkpoints }: Kept): Fault | null {
  return keys || checkpoints ? { line: 1, why: "it is of the first form, which is not signed" } : null;
}

/** Returns the line about the version of the type that the session was planned on, from its first event. */
function typeLine(first: string): string[] {
  const { fact } = readSealed(first).event;
  if (fact.type !== "planned") return [];
  const { aircraftType, typeSeal, rehearsal } = fact;
  const version = `planned on version ${aircraftType.version} of ${aircraftType.id}`;
  const { back } = rehearsal ?? {};
  return [
    ...(back ? [`events 1 to ${back.seq} are retold from ${back.session}: they were done there`] : []),
    typeSeal === undefined
      ? `${version}; the record is from before it named the version's seal`
      : `${version}, whose seal has the SHA-256 ${typeSeal} (npm run house -- types lists them)`,
  ];
}

function saysOf(
  planned: readonly string[],
  manifest: Manifest,
  events: number,
  head: string,
  stage: string,
  kept: Kept,
  pseudonyms: Set<string>,
): string {
  const { session, aircraft, exportedAt } = manifest;
  const says = [
    `${isVouched(kept) ? "OK" : "WHOLE"} ${events} events of session ${session}, ${aircraft}, stage ${stage}, exported ${exportedAt}`,
    ...(isRehearsedAircraft(aircraft) ? [REHEARSED.trim()] : []),
    `head ${head}`,
    ...planned,
  ];
  if (manifest.format === "chockside-evidence-2") {
    const [key = ""] = manifest.keys;
    const erased = pseudonyms.size - Object.keys(manifest.names).length;
    if (erased > 0)
      says.push(`${erased} of ${pseudonyms.size} people were erased: their names cannot be recovered`);
    says.push(`${manifest.checkpoints.length} checkpoints and the whole file are signed by key ${key}`);
  }
  if (!isVouched(kept))
    says.push(
      "This shows that nothing was changed since. That whoever keeps the key did not write it anew as a whole is " +
        "shown only by what was noted elsewhere: --key KEY, --checkpoint FILE.",
    );
  return says.join("\n");
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
