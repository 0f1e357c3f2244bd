import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sha256 as ours } from "../../server/sha256.ts";
import { canonical, isCanonical } from "../../shared/evidence/canonical.ts";
import { type ChainEnd, followsOn, genesis, type Sealed, seal } from "../../shared/evidence/chain.ts";
import { given, sha256 } from "./given.ts";

const SEED = 20260601;
const ID = "test-session";

const story = given().manned(["cockpit", "supervisor"]);
let prev = genesis(ID, sha256);
const kept: Sealed[] = story.log.map((event) => {
  const one = seal(event, prev, sha256);
  prev = one.hash;
  return one;
});
/** Returns the number of the first line that does not follow; null when all do. */
function broken(lines: readonly Sealed[], session = ID): number | null {
  let last: ChainEnd = { seq: 0, hash: genesis(session, sha256) };
  for (const line of lines) {
    if (!followsOn(session, last, line, ours)) return last.seq + 1;
    last = line;
  }
  return null;
}
/** Returns `kept` with the body of line `n` changed and its hash corrected. */
const rewritten = (n: number, change: (body: string) => string) =>
  kept.map((line, i) => {
    if (i !== n - 1) return line;
    const body = change(line.body);
    return { ...line, body, hash: sha256(body) };
  });

describe("a chain followed without reading what its lines say", () => {
  it("[CAN-3] holds as it was sealed, for its own session alone", () => {
    expect(broken(kept)).toBeNull();
    expect(broken(kept, "other")).toBe(1);
    expect(broken([])).toBeNull();
  });

  it("[CAN-3] is broken at the line of which any byte was changed", () => {
    for (const [k, line] of kept.entries())
      for (let i = 0; i < line.body.length; i += 1) {
        const body = `${line.body.slice(0, i)}${line.body[i] === "x" ? "y" : "x"}${line.body.slice(i + 1)}`;
        if (broken(kept.map((l, j) => (j === k ? { ...l, body } : l))) !== k + 1)
          expect({ line: k + 1, byte: i }).toBeNull();
      }
  });

  it("[CAN-3] is broken at a line left out, doubled or out of place", () => {
    for (let i = 0; i < kept.length - 1; i += 1) {
      expect(broken(kept.filter((_, k) => k !== i))).toBe(i + 1);
      expect(broken([...kept.slice(0, i + 1), ...kept.slice(i)])).toBe(i + 2);
    }
  });

  it("[CAN-3] is broken by a line rewritten with its hash, at that line or the one below", () => {
    expect(broken(rewritten(2, (body) => body.replace('"at":', '"at":1')))).toBe(3);
    expect(broken(rewritten(2, (body) => body.replace(/"prev":"./, '"prev":"z')))).toBe(2);
    expect(broken(rewritten(2, (body) => body.replace('"seq":2', '"seq":3')))).toBe(2);
  });

  it("[CAN-3] takes no text within a line for the members at its end", () => {
    const due = `,"prev":"${kept[0]?.hash}","seq":2,"session":"${ID}","v":1}`;
    const within = (body: string) =>
      body.replace(due, `,"note":${JSON.stringify(due)},"prev":"0","seq":2,"session":"${ID}","v":1}`);
    expect(broken(rewritten(2, within))).toBe(2);
    expect(broken(rewritten(2, (body) => `${body} `))).toBe(2);
  });
});

describe("telling canonical bytes", () => {
  const spoilt = (text: string, how: number): string => {
    switch (how) {
      case 0:
        return text;
      case 1:
        return text.replace(/,/, ", ");
      case 2:
        return text.replace(/"[a-z]/, '"\\u0061');
      case 3:
        return text.replace(/([:,[]\d)(?=[,\]}])/, "$1.0");
      default:
        return JSON.stringify(JSON.parse(text), null, 1);
    }
  };
  it("[CAN-5] agrees with writing them anew, whatever the value and however its bytes were spoilt", () => {
    const keys = fc.oneof(fc.constantFrom("1", "10", "9", "a", "b", "v", "__proto__"), fc.string());
    const value = fc.letrec((tie) => ({
      any: fc.oneof(
        { depthSize: "small" },
        fc.string({ unit: "binary" }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.boolean(),
        fc.constant(null),
        fc.array(tie("any"), { maxLength: 4 }),
        fc.dictionary(keys, tie("any"), { maxKeys: 5 }),
      ),
    })).any;
    fc.assert(
      fc.property(value, fc.nat(4), fc.boolean(), (made, how, sorted) => {
        const text = spoilt(sorted ? canonical(made) : JSON.stringify(made), how);
        const parsed: unknown = JSON.parse(text);
        expect(isCanonical(text, parsed)).toBe(canonical(parsed) === text);
      }),
      { seed: SEED, numRuns: 2_000 },
    );
  });

  it.each([
    ['{"1":0,"10":0,"9":0}', true],
    ['{"1":0,"9":0,"10":0}', false],
    ['{"a":1,"a":1}', false],
    ['{"b":1,"a":1}', false],
    ["1e+21", true],
    ["1e21", false],
  ])("[CAN-5] %s is canonical: %s", (text, is) => {
    expect(isCanonical(text, JSON.parse(text))).toBe(is);
  });

  it("[CAN-2] refuses an escape that stands for a lone surrogate", () => {
    expect(() => isCanonical('"\\ud800"', JSON.parse('"\\ud800"'))).toThrow(TypeError);
  });
});
