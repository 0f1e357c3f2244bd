import { readFileSync } from "node:fs";
import { sha256 as noble } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import { type Manifest, verify } from "../../shared/evidence/verify.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { exported, given, sha256 } from "./given.ts";

const read = <T>(name: string) =>
  JSON.parse(readFileSync(new URL(`vectors/${name}.json`, import.meta.url), "utf8")) as T;
interface CanonicalVectors {
  numbers: [bits: string, text: string][];
  notNumbers: string[];
  sample: { input: string; hex: string; sha256: string };
  keyOrder: string[];
}
const vectors = read<CanonicalVectors>("canonical");
const digests = read<{ digests: { text: string; times: number; sha256: string }[] }>("sha256").digests;
const fromBits = (hex: string) => Buffer.from(hex, "hex").readDoubleBE(0);

describe("canonical JSON (RFC 8785)", () => {
  it.each(vectors.numbers)("[CAN-1] number %s is written %s", (bits, text) => {
    expect(canonical(fromBits(bits))).toBe(text);
  });

  it.each(vectors.notNumbers)("[CAN-2] %s has no text", (bits) => {
    expect(() => canonical(fromBits(bits))).toThrow(TypeError);
  });

  it("[CAN-1] writes the sample of section 3.2.2 with the published bytes and hash", () => {
    const text = canonical(JSON.parse(vectors.sample.input));
    expect(Buffer.from(text, "utf8").toString("hex")).toBe(vectors.sample.hex);
    expect(sha256(text)).toBe(vectors.sample.sha256);
  });

  it("[CAN-1] sorts keys as section 3.2.3 does, by UTF-16 code units", () => {
    const shuffled = Object.fromEntries([...vectors.keyOrder].reverse().map((k, i) => [k, i]));
    expect(Object.keys(JSON.parse(canonical(shuffled))).filter((k) => k !== "1")).toEqual(
      vectors.keyOrder.filter((k) => k !== "1"),
    );
    expect(canonical({ b: 1, 10: 2, 2: 3, a: 4 })).toBe('{"10":2,"2":3,"a":4,"b":1}');
  });

  it.each([
    ["a lone surrogate", "\ud800"],
    ["one in a key", { "\udc00": 1 }],
    ["a function", () => 1],
    ["a hole", [undefined]],
    ["a big integer", 1n],
    ["nothing at all", undefined],
  ])("[CAN-2] %s is an error", (_, value) => {
    expect(() => canonical(value)).toThrow(TypeError);
  });

  it("[CAN-1] members without a value are left out, as JSON does", () => {
    expect(canonical({ a: undefined, b: null })).toBe('{"b":null}');
  });
});

describe("digests and chain", () => {
  it.each(digests)(
    "[CAN-3] SHA-256 of $times times “$text” (FIPS 180-4), on server and panel",
    ({ text, times, sha256: expected }) => {
      const long = text.repeat(times);
      expect(sha256(long)).toBe(expected);
      expect(bytesToHex(noble(utf8ToBytes(long)))).toBe(expected);
    },
  );

  it("[CAN-3] each line holds the hash of the one before, the first that of its session", () => {
    const { lines } = exported(given().manned().log);
    const prev = lines.map((l) => (JSON.parse(l) as { prev: string }).prev);
    expect(prev[0]).toBe(sha256("chockside session test-session"));
    expect(prev.slice(1)).toEqual(lines.slice(0, -1).map(sha256));
  });
});

// The smallest possible type, so that every byte can be tried.
const SMALL: AircraftType = {
  ...FOUR,
  engines: FOUR.engines.slice(0, 1),
  defaultOrder: [1],
  checks: [],
  warmUp: [],
  gauges: FOUR.gauges.slice(0, 1),
};
const story = given({ type: SMALL }).manned(["cockpit", "supervisor"]);
story.say("supervisor", { type: "advance", to: "brief" });
const { lines, manifest } = story.export();
const check = (changed: string[], m: Manifest = manifest) => verify(changed, m, sha256);
const where = (changed: string[], m: Manifest = manifest) => {
  const result = check(changed, m);
  return result.ok ? null : result.line;
};
const without = (i: number) => lines.filter((_, n) => n !== i);
const last = lines.length;

describe("verification of a record", { timeout: 120_000 }, () => {
  it("[CAN-4, EVT-2] accepts a record as exported, which replays to the same state", () => {
    const result = check(lines);
    expect(result).toMatchObject({ ok: true, events: lines.length, head: manifest.head });
    expect(canonical(result.ok ? result.state : null)).toBe(canonical(story.state));
  });

  it.each(lines.map((_, i) => i + 1))("[CAN-4] names line %i when any byte of it is changed", (n) => {
    const bytes = Buffer.from(lines[n - 1] ?? "", "utf8");
    for (let i = 0; i < bytes.length; i += 1) {
      const changed = Buffer.from(bytes);
      changed[i] = (changed[i] ?? 0) ^ (i % 2 === 0 ? 1 : 0x20);
      const text = changed.toString("utf8");
      const found = where(lines.map((line, k) => (k === n - 1 ? text : line)));
      if (found !== n) expect({ at: text.slice(Math.max(0, i - 20), i + 20), found }).toEqual({ found: n });
    }
  });

  it.each(lines.map((_, i) => i))("[CAN-4] names the place where line index %i is missing", (i) => {
    expect(where(without(i))).toBe(i + 1);
  });

  it.each(lines.map((_, i) => i))("[CAN-4] names the second of two copies of line index %i", (i) => {
    expect(where([...lines.slice(0, i + 1), ...lines.slice(i)])).toBe(i + 2);
  });

  it.each(lines.slice(1).map((_, i) => i))(
    "[CAN-4] names the first of lines %i and the next when they are exchanged",
    (i) => {
      const swapped = [...lines];
      [swapped[i], swapped[i + 1]] = [lines[i + 1] ?? "", lines[i] ?? ""];
      expect(where(swapped)).toBe(i + 1);
    },
  );

  it("[CAN-4] finds a missing end, by whole lines or within the last one", () => {
    for (let kept = 1; kept < last; kept += 1) expect(where(lines.slice(0, kept))).toBe(kept + 1);
    const text = lines[last - 1] ?? "";
    for (const length of [0, 1, 20, text.length - 1]) {
      expect(where([...lines.slice(0, -1), text.slice(0, length)])).toBe(last);
    }
    expect(where([])).toBe(1);
  });

  it("[CAN-4] finds a line added at the end", () => {
    const more = given().manned();
    expect(where([...lines, ...more.export().lines.slice(last, last + 1)])).toBe(last + 1);
    expect(where([...lines, ""])).toBe(last + 1);
  });

  it("[CAN-4] names the first of two altered neighbours", () => {
    const other = lines.map((line, i) => (i === 2 || i === 3 ? line.replace("tablet", "bablet") : line));
    expect([3, 4]).toContain(where(other));
    expect(where(other)).not.toBeNull();
  });

  it.each([
    ["events", { events: manifest.events + 1 }, last + 1],
    ["head", { head: "0".repeat(64) }, last],
    ["session", { session: "another" }, 1],
    ["aircraft", { aircraft: "CH-OTH" }, 0],
  ] as const)("[CAN-4] finds a manifest with another %s", (_, change, line) => {
    expect(where(lines, { ...manifest, ...change })).toBe(line);
  });

  it("[CAN-4] finds a whole record under another session's manifest", () => {
    const other = { ...manifest, session: "other-session" };
    expect(where(lines, other)).toBe(1);
  });

  it.each([
    ["spaces", (line: string) => line.replace(/,/, ", ")],
    ["keys in another order", (line: string) => JSON.stringify(reversed(JSON.parse(line)))],
    ["an escape that need not be", (line: string) => line.replace("supervisor", "\\u0073upervisor")],
    ["a number in another form", (line: string) => line.replace(/"v":1\}/, '"v":1.0}')],
    ["a carriage return", (line: string) => `${line}\r`],
    ["the same member twice", (line: string) => line.replace(/"v":1\}$/, '"v":1,"v":1}')],
  ])("[CAN-5] %s: the same meaning in other bytes", (_, change) => {
    const altered = change(lines[last - 1] ?? "");
    expect(altered).not.toBe(lines[last - 1]);
    const rehashed = { ...manifest, head: sha256(altered) };
    expect(check([...lines.slice(0, -1), altered], rehashed)).toEqual({
      ok: false,
      line: last,
      why: "not the canonical bytes",
    });
  });

  const forge = (change: (event: SessionEvent) => SessionEvent | object) => {
    const log = story.log.map((e, i) => (i === story.log.length - 1 ? (change(e) as SessionEvent) : e));
    let head = genesis(manifest.session, sha256);
    const forged = log.map((event) => {
      const sealed = seal(event, head, sha256);
      head = sealed.hash;
      return sealed.body;
    });
    return check(forged, { ...manifest, head });
  };
  it.each([
    ["of a form nobody knows", (e: SessionEvent) => ({ ...e, fact: { type: "miracle" } })],
    ["with a member too many", (e: SessionEvent) => ({ ...e, more: 1 })],
    ["of a second plan", () => ({ ...story.log[0], seq: last, at: story.now })],
    ["of another session", (e: SessionEvent) => ({ ...e, session: "elsewhere" })],
    ["out of number", (e: SessionEvent) => ({ ...e, seq: last + 1 })],
    ["before the time of the one above", (e: SessionEvent) => ({ ...e, at: e.at - 1 })],
  ])("[CAN-6] finds that the last line is %s, although the hashes agree", (_, change) => {
    expect(forge(change)).toMatchObject({ ok: false, line: last });
  });

  it("[CAN-6] finds a record rewritten as a whole only by a head that was kept elsewhere", () => {
    const result = forge((e) => ({ ...e, clientAt: 7 }));
    expect(result).toMatchObject({ ok: true });
    expect(result.ok && result.head).not.toBe(manifest.head);
  });
});

function reversed(value: unknown): unknown {
  if (value === null || typeof value !== "object" || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).reverse());
}
