import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { historyExport } from "../../server/evidence/history-export.ts";
import { Names } from "../../server/evidence/names.ts";
import { Notary } from "../../server/evidence/notary.ts";
import { noteTools } from "../../server/evidence/note-tools.ts";
import type { EvidenceSigner } from "../../server/evidence/signer.ts";
import { randomIds } from "../../server/ids.ts";
import { sha256 } from "../../server/sha256.ts";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { endLine } from "../../shared/evidence/signedExport.ts";
import { signerFrom, testSigner } from "../http/test-signer.ts";
import { given, START } from "../spec/given.ts";
import { SMALL, stored } from "./exported.ts";

const AIRCRAFT = "CH-TST";
const other = signerFrom("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb");

/** Returns the history of an aircraft with these sessions, each with a few events. */
async function historyOf(sessions: readonly string[], signer: EvidenceSigner = testSigner) {
  const store = new MemoryEventStore();
  for (const session of [...sessions, "elsewhere"]) {
    const story = given({ type: SMALL, session, aircraft: session === "elsewhere" ? "CH-OTH" : AIRCRAFT });
    story.say("supervisor", { type: "claimPost", post: "supervisor" });
    await stored(story.log, store);
  }
  const clock = { now: () => START + 60_000 };
  const notary = new Notary({ store, signer, clock, log: { error() {} } });
  const names = await Names.open(new MemoryDirectory().personal, [], randomIds.salt);
  let text = "";
  for await (const part of historyExport({ store, notary, names }, AIRCRAFT, clock.now())) text += part;
  return text;
}

/** Signs the lines anew, as the holder of the key could. */
function signedAnew(lines: readonly string[], signer: EvidenceSigner = testSigner): string {
  const before = `${lines.join("\n")}\n`;
  return `${before}${endLine(Buffer.from(sha256(before), "hex"), signer, noteTools)}\n`;
}

const text = await historyOf(["one", "two"]);
const lines = text.trimEnd().split("\n");
const unsigned = lines.slice(0, -1);
const [manifest] = lines.map((line) => JSON.parse(line));

function second(content: string, ...more: string[]) {
  const folder = mkdtempSync(join(tmpdir(), "chockside-history-"));
  const path = join(folder, "history");
  writeFileSync(path, content);
  const file = fileURLToPath(new URL("verify.py", import.meta.url));
  const { status, stdout } = spawnSync("python3", ["-B", file, path, ...more], { encoding: "utf8" });
  rmSync(folder, { recursive: true });
  return { status, stdout };
}

describe("an aircraft's whole history", { timeout: 120_000 }, () => {
  it("[HIS-38] holds every record of the aircraft and no other, each as it is exported alone", () => {
    expect(manifest.records.map((r: { session: string }) => r.session)).toEqual(["one", "two"]);
    const end = 1 + manifest.records[0].events + 2;
    const alone = `${lines.slice(1, end).join("\n")}\n`;
    expect(checkFile(alone).says).toContain("session one, CH-TST");
    expect(checkFile(text)).toMatchObject({ ok: true, vouched: false });
    expect(checkFile(text).says).toMatch(/^WHOLE the history of CH-TST: 2 records, \d+ events/);
    expect(checkFile(text, { keys: [testSigner.publicHex] })).toMatchObject({ ok: true, vouched: true });
    expect(checkFile(text, { keys: [other.publicHex] }).ok).toBe(false);
  });

  it("[HIS-38] with any one byte changed, cut anywhere, or with more at its end is bad", () => {
    const bytes = Buffer.from(text, "utf8");
    const missed: string[] = [];
    // Every byte is under one signature. A third of them, in each line, shows it.
    for (let i = 0; i < bytes.length; i += i > bytes.length - 200 ? 1 : 3) {
      const changed = Buffer.from(bytes);
      changed[i] = (changed[i] ?? 0) ^ (1 << (i % 7));
      if (checkFile(changed.toString("utf8")).ok) missed.push(`byte ${i}`);
    }
    for (let length = 0; length < text.length; length += length < text.length - 300 ? 97 : 1)
      if (checkFile(text.slice(0, length)).ok) missed.push(`cut at ${length}`);
    for (const more of ["\n", " ", `${lines.at(-1)}\n`]) if (checkFile(text + more).ok) missed.push("more");
    expect(missed).toEqual([]);
  });

  it("[HIS-38] signed anew by the holder of the key with a line or a record dropped, doubled or moved is bad", () => {
    expect(checkFile(signedAnew(unsigned)).ok).toBe(true);
    const missed: string[] = [];
    const tried = (what: string, rows: readonly string[]) => {
      if (checkFile(signedAnew(rows)).ok) missed.push(what);
    };
    for (const [i, row] of unsigned.entries()) {
      tried(`${i} dropped`, unsigned.toSpliced(i, 1));
      tried(`${i} doubled`, unsigned.toSpliced(i, 0, row));
    }
    const at = 1 + manifest.records[0].events + 2;
    const [head = "", first, then] = [unsigned[0], unsigned.slice(1, at), unsigned.slice(at)];
    tried("a record dropped", [head, ...then]);
    tried("records exchanged", [head, ...then, ...first]);
    tried("a record doubled", [head, ...first, ...then, ...then]);
    tried("named, and not there", [head, ...first]);
    expect(missed).toEqual([]);
  });

  it("[HIS-38] with a record of another aircraft or by another key in it is bad, also signed anew", async () => {
    const at = 1 + manifest.records[0].events + 2;
    const anew = (change: object) =>
      signedAnew([JSON.stringify({ ...manifest, ...change }), ...unsigned.slice(1)]);
    expect(checkFile(anew({ aircraft: "CH-OTH" })).says).toMatch(
      /^BAD line 2: it is not the record one of CH-OTH/,
    );
    const theirs = (await historyOf(["one", "two"], other)).trimEnd().split("\n");
    const mixed = signedAnew([...unsigned.slice(0, at), ...theirs.slice(at, -1)]);
    expect(checkFile(mixed).says).toContain("it is signed by another key than the file");
  });

  it("[HIS-38] is vouched for by checkpoints only where each record has one, and none may be of elsewhere", () => {
    const notes = [lines[1], lines[1 + manifest.records[0].events + 2]].map(
      (line) => JSON.parse(line ?? "").checkpoints.at(-1) as string,
    );
    expect(checkFile(text, { checkpoints: notes })).toMatchObject({ ok: true, vouched: true });
    expect(checkFile(text, { checkpoints: notes.slice(1) })).toMatchObject({ ok: true, vouched: false });
    const foreign = (notes[0] ?? "").replace("session/one", "session/ten");
    expect(checkFile(text, { checkpoints: [foreign] }).ok).toBe(false);
  });

  it("[HIS-38] of an aircraft without any record is signed too", async () => {
    const empty = await historyOf([]);
    expect(checkFile(empty).says).toMatch(/^WHOLE the history of CH-TST: 0 records/);
    expect(second(empty)).toEqual({ status: 3, stdout: "WHOLE 0 records, 0 events of CH-TST\n" });
  });

  it("[HIS-38] is judged alike by the verifier in Python", () => {
    const events = manifest.records.reduce((sum: number, r: { events: number }) => sum + r.events, 0);
    const said = (verdict: string) => `${verdict} 2 records, ${events} events of CH-TST\n`;
    expect(second(text)).toEqual({ status: 3, stdout: said("WHOLE") });
    expect(second(text, testSigner.publicHex)).toEqual({ status: 0, stdout: said("OK") });
    const at = 1 + manifest.records[0].events + 2;
    const spoilt = [
      text.replace('"clientAt":', '"clientAt":1'),
      `${text}{}\n`,
      signedAnew(unsigned.toSpliced(1, at - 1)),
      signedAnew([...unsigned.slice(0, 1), ...unsigned.slice(at), ...unsigned.slice(1, at)]),
      signedAnew([...unsigned, "{}"]),
    ];
    for (const [i, content] of spoilt.entries()) {
      const { status, stdout } = second(content);
      expect([i, status, stdout.slice(0, 4), checkFile(content).ok]).toEqual([i, 1, "BAD ", false]);
    }
    expect(second(text, other.publicHex).stdout).toMatch(/^BAD /);
  });
});
