import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { noteTools } from "../../server/evidence/note-tools.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { signNote } from "../../shared/evidence/note.ts";
import { signerFrom, testSigner } from "../http/test-signer.ts";
import { given } from "../spec/given.ts";
import { exportText, SMALL } from "./exported.ts";

const story = given({ type: SMALL });
story.say("supervisor", { type: "claimPost", post: "supervisor" });
story.say("supervisor", { type: "send", kind: "hold", note: "\ufffd 2 “people” \u{1f6e9}" });
const text = await exportText(story.log);
const lines = text.trimEnd().split("\n");
const file = (all: readonly string[]) => `${all.join("\n")}\n`;
/** Of the forms that are made of the same events every fifth byte is changed, a different bit in turn. */
const STRIDE = 5;
const other = signerFrom("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb");

/** Reads a file as `npm run verify` does: a file that is not UTF-8 is not read at all. */
function check(bytes: Uint8Array) {
  try {
    return checkFile(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes)).ok;
  } catch {
    return false;
  }
}

describe("a signed export", { timeout: 120_000 }, () => {
  it("[CHP-7] is good as it was written", () => {
    expect(checkFile(text)).toMatchObject({
      ok: true,
      says: expect.stringContaining("2 checkpoints and the"),
    });
  });

  it("[CHP-7] with any one byte changed is bad", () => {
    const bytes = Buffer.from(text, "utf8");
    const missed: string[] = [];
    for (let i = 0; i < bytes.length; i += 1) {
      const changed = Buffer.from(bytes);
      // Change one bit, another one in each byte in turn, so that all eight are tried throughout the file.
      changed[i] = (changed[i] ?? 0) ^ (1 << (i % 8));
      if (check(changed)) missed.push(changed.subarray(Math.max(0, i - 20), i + 20).toString());
    }
    expect(missed).toEqual([]);
  });

  it.each(["json", "csv"] as const)(
    "[EVD-5] as %s is whole as it was written, and with a byte changed, a line gone, doubled or elsewhere, cut or added to bad",
    async (form) => {
      const kept = { keys: [testSigner.publicHex] };
      const bytes = Buffer.from(await exportText(story.log, testSigner, form), "utf8");
      const ok = (changed: Uint8Array, by = kept) => {
        try {
          return checkFile(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(changed), by).ok;
        } catch {
          return false;
        }
      };
      expect(ok(bytes)).toBe(true);
      expect(ok(bytes, { keys: [other.publicHex] })).toBe(false);
      const missed: string[] = [];
      for (let i = 0; i < bytes.length; i += STRIDE) {
        const changed = Buffer.from(bytes);
        changed[i] = (changed[i] ?? 0) ^ (1 << (i % 8));
        if (ok(changed)) missed.push(changed.subarray(Math.max(0, i - 20), i + 20).toString());
      }
      const feed = form === "json" ? "\n" : "\r\n";
      const rows = bytes.toString("utf8").split(feed);
      for (const [i, row] of rows.slice(0, -1).entries()) {
        const rest = rows.toSpliced(i, 1);
        const moved = rest.map((_, to) => (to === i ? rest : rest.toSpliced(to, 0, row)));
        for (const other of [rest, rows.toSpliced(i, 0, row), ...moved])
          if (ok(Buffer.from(other.join(feed)))) missed.push(`line ${i}`);
      }
      for (let cut = 1; cut < 400; cut += 9)
        if (ok(bytes.subarray(0, bytes.length - cut))) missed.push(`${cut} cut off`);
      for (const more of [" ", "\n", "\r\n", ",", "x"])
        if (ok(Buffer.concat([bytes, Buffer.from(more)]))) missed.push(`${more} added`);
      expect(missed).toEqual([]);
    },
  );

  it("[EVD-5] as JSON is one document whose events are checked against the chain and checkpoints like lines", async () => {
    const json = await exportText(story.log, testSigner, "json");
    const { manifest, events, end } = JSON.parse(json);
    expect([events.length, typeof end]).toEqual([manifest.events, "string"]);
    expect(checkFile(json).says).toBe(checkFile(text).says);
    const whole = manifest.checkpoints.at(-1);
    expect(checkFile(json, { checkpoints: [whole] }).ok).toBe(true);
    const shorter = await exportText(story.log.slice(0, 2), testSigner, "json");
    expect(checkFile(shorter, { checkpoints: [whole] })).toMatchObject({ ok: false });
    expect(checkFile(json.replace('"hold"', '"hole"')).says).toMatch(/^BAD line \d+: /);
  });

  it("[EVD-5] as a table names no key: one must be given, and no checkpoint is compared", async () => {
    const table = await exportText(story.log, testSigner, "csv");
    expect(checkFile(table).says).toContain("give the one that was noted elsewhere by --key");
    const keys = [testSigner.publicHex];
    expect(checkFile(table, { keys, checkpoints: ["x"] }).ok).toBe(false);
  });

  it("[CHP-7] with any one bit of its last letters changed is bad", () => {
    const bytes = Buffer.from(text, "utf8");
    // The last letters hold unused bits: changing those must be found too.
    for (let i = bytes.length - 12; i < bytes.length; i += 1)
      for (let bit = 0; bit < 8; bit += 1) {
        const changed = Buffer.from(bytes);
        changed[i] = (changed[i] ?? 0) ^ (1 << bit);
        expect(check(changed)).toBe(false);
      }
  });

  it("[CHP-7] with a line removed, doubled, moved or exchanged is bad", () => {
    for (const [i, line] of lines.entries()) {
      const without = lines.filter((_, n) => n !== i);
      expect(checkFile(file(without)).ok).toBe(false);
      for (let to = 0; to <= without.length; to += 1)
        if (to !== i) expect(checkFile(file(without.toSpliced(to, 0, line))).ok).toBe(false);
      expect(checkFile(file(lines.toSpliced(i, 0, line))).ok).toBe(false);
    }
  });

  it("[CHP-7] cut anywhere is bad, even without the last line feed alone, and so is one with more", () => {
    for (let length = 0; length < text.length; length += length < text.length - 400 ? 13 : 1)
      expect(checkFile(text.slice(0, length)).ok).toBe(false);
    for (const more of ["\n", " ", "{}\n", `${lines.at(-1)}\n`])
      expect(checkFile(text + more).ok).toBe(false);
  });

  it("[CHP-8] rewritten with another key is bad against the key noted elsewhere", async () => {
    const anew = await exportText(story.log, other);
    expect(checkFile(anew).ok).toBe(true);
    expect(checkFile(anew, { keys: [testSigner.publicHex] })).toMatchObject({
      ok: false,
      says: expect.stringMatching(/^BAD line 1: it names the key /),
    });
    expect(checkFile(text, { keys: [other.publicHex, testSigner.publicHex] }).ok).toBe(true);
  });

  it("[CHP-8] rewritten or shortened by the holder of the key is bad against a checkpoint kept elsewhere", async () => {
    const [, early = "", whole = ""] = ["", ...JSON.parse(lines[0] ?? "").checkpoints];
    expect(checkFile(text, { checkpoints: [early, whole] }).ok).toBe(true);
    const shorter = await exportText(story.log.slice(0, -1));
    expect(checkFile(shorter).ok).toBe(true);
    expect(checkFile(shorter, { checkpoints: [early] }).ok).toBe(true);
    expect(checkFile(shorter, { checkpoints: [whole] })).toMatchObject({
      ok: false,
      says: expect.stringContaining("lines are missing"),
    });
    const changed = story.log.map((e, i) => (i === 2 ? { ...e, clientAt: 1 } : e));
    const anew = await exportText(changed);
    expect(checkFile(anew).ok).toBe(true);
    expect(checkFile(anew, { checkpoints: [whole] })).toMatchObject({
      ok: false,
      says: expect.stringContaining("it is not what was signed at 2026-06-01T09:01:00.000Z"),
    });
  });

  it("[CHP-7] whose signature was taken off, or made over something else, is bad", () => {
    const end = (over: string) => canonical({ end: signNote(over, testSigner, noteTools.hash) });
    const swapped = (last: string) => file([...lines.slice(0, -1), last]);
    const own = String(JSON.parse(lines.at(-1) ?? "").end).split("\n\n")[0];
    expect(checkFile(swapped(end(`${own}\n`))).ok).toBe(true);
    expect(checkFile(swapped(end(`chockside/export\n${"0".repeat(64)}\n`))).ok).toBe(false);
    expect(checkFile(swapped(JSON.stringify({ end: 5 }))).ok).toBe(false);
    expect(checkFile(swapped(JSON.stringify({ end: JSON.parse(lines[0] ?? "").checkpoints[0] }))).ok).toBe(
      false,
    );
  });
});

describe("the second verifier, in Python", () => {
  const python = (script: string, content: string, ...more: string[]) => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-second-"));
    const path = join(folder, "record");
    writeFileSync(path, content);
    const file = fileURLToPath(new URL(script, import.meta.url));
    const ended = spawnSync("python3", ["-B", file, path, ...more], { encoding: "utf8" });
    rmSync(folder, { recursive: true });
    return ended;
  };
  const second = (content: string, ...keys: string[]) => python("verify.py", content, ...keys).stdout;

  it("[CHP-9] agrees with the first one on a good record and on spoilt ones", async () => {
    const { head } = JSON.parse(lines[0] ?? "");
    const whole = (verdict: string) => `${verdict} ${lines.length - 2} events, 2 checkpoints, head ${head}\n`;
    expect(second(text)).toBe(whole("WHOLE"));
    expect(second(text, testSigner.publicHex)).toBe(whole("OK"));
    expect(python("verify.py", text).status).toBe(3);
    expect(second(await exportText(story.log, testSigner, "json"))).toBe(whole("WHOLE"));
    const spoilt = [
      text.replace('"clientAt":', '"clientAt":1'),
      text.replace("chockside/session/test", "chockside/session/tess"),
      text.replace(/(Chockside supports)/, "Chockside replaces"),
      text.replace(/(.)(==?\\n"\}\n)$/, (_, c, rest) => `${c === "A" ? "B" : "A"}${rest}`),
    ];
    for (const content of spoilt) {
      expect(content).not.toBe(text);
      const { status, stdout } = python("verify.py", content);
      expect([status, stdout.slice(0, 4), checkFile(content).ok]).toEqual([1, "BAD ", false]);
    }
  });

  it("[CHP-9] accepts a table only by the key noted elsewhere", async () => {
    const table = await exportText(story.log, testSigner, "csv");
    expect(second(table, testSigner.publicHex)).toBe(`OK a table of ${story.log.length} rows\n`);
    expect([second(table), second(table, other.publicHex)].map((said) => said.slice(0, 4))).toEqual([
      "BAD ",
      "BAD ",
    ]);
    expect(second(text, other.publicHex)).toMatch(/^BAD /);
  });

  it.each(["ndjson", "json", "csv"] as const)(
    "[CHP-9] finds bytes all over %s changed, each line gone, doubled or elsewhere, and what is cut or added",
    async (form) => {
      const content = await exportText(story.log, testSigner, form);
      const { status, stdout } = python("spoil.py", content, testSigner.publicHex, String(STRIDE));
      const [count, ...passed] = stdout.trimEnd().split("\n");
      expect([status, passed]).toEqual([0, []]);
      expect(Number(count)).toBeGreaterThan(Buffer.byteLength(content) / STRIDE);
    },
  );
});
