import type { SessionState } from "../../shared/session/state.ts";
import { AT, AT_DROPPED, DROP, EPOCH, FLAG, ID, keyOf, TOUCH, wordOf } from "./keys.ts";
import { FIRST_ID, OLDEST } from "./model.ts";
import { MOMENTS } from "./time.ts";

/**
 * A 64-bit fingerprint of the parts of a state that can still matter. States are equal if they differ only in event
 * numbers, in their moment, in names, and in the order of things whose order has no meaning. Among n states, two
 * different ones share a fingerprint with a chance of about n²/2⁶⁵ (a millionth at five million). A field that this
 * file does not know counts.
 */

// Results of `hash` and `mix`. They are module variables to avoid an allocation for each of some hundred leaves.
let low = 0;
let high = 0;

/** The two halves of the last fingerprint, unsigned. */
export const print = { low: 0, high: 0 };

let now = 0;
let epoch = 0;
let liveSince: number | null = null;
let atDropped = false;
let alertsCount = true;

// Things with an id of their own, hashed without ids, so that a reference can be replaced by what it refers to.
const own: { id: number }[] = [];
const lows: number[] = [];
const highs: number[] = [];
const refs: number[][] = [];
let things = 0;
let inThing = false;
let ownRefs: number[] = [];

// The parts of the state that its successors are compared with: most parts of a successor are the same objects.
let baseNow = Number.NaN;
let baseEpoch = 0;
let baseLive: number | null = null;
const baseParts: unknown[] = [];
const baseLows: number[] = [];
const baseHighs: number[] = [];
/** Returns true if a part's hash depends on more than the part: on what an id refers to, or on the epoch. */
const baseHangs: boolean[] = [];
const baseThings: { thing: object; low: number; high: number; refs: number[] }[] = [];
let hangs = false;

/** Sets whether alerts are part of a state: they decide nothing of a start except themselves. */
export function countAlerts(count: boolean): void {
  alertsCount = count;
}

/** Stores a state's parts, so that the fingerprints of its successors need only the changed parts. */
export function setBase(state: SessionState, at: number): void {
  baseNow = Number.NaN;
  read(state, at, true);
  baseNow = at;
  baseEpoch = state.epoch;
  baseLive = state.liveSince;
}

/** Sets `print` to the fingerprint of a state at a moment. */
export function fingerprint(state: SessionState, at: number): void {
  read(state, at, false);
}

function read(state: SessionState, at: number, base: boolean): void {
  now = at;
  epoch = state.epoch;
  liveSince = state.liveSince;
  things = 0;
  const near = at === baseNow;
  if (base) baseThings.length = 0;
  for (const key in state) {
    const part = state[key as keyof SessionState];
    if (!isThings(part) || key === "ended" || (key === "alerts" && !alertsCount)) continue;
    atDropped = AT_DROPPED.has(key);
    for (const thing of part) {
      if (!near || !recall(thing)) readThing(thing, wordOf(key));
      if (base) {
        const at = things - 1;
        baseThings.push({ thing, low, high, refs: refs[at] as number[] });
      }
    }
  }
  let a = 0x3c6ef372;
  let b = 0x1b873593;
  for (let i = 0; i < things; i += 1) {
    low = lows[i] as number;
    high = highs[i] as number;
    reference((own[i] as { id: number }).id);
    for (const ref of refs[i] as number[]) reference(ref);
    a = (a + low) | 0;
    b = (b + high) | 0;
  }
  const sameHang = near && epoch === baseEpoch && liveSince === baseLive && sameThings();
  for (const key in state) {
    const { rule, slot, hash: word } = keyOf(key);
    if (rule === DROP || rule === ID || rule === EPOCH) continue;
    const part = state[key as keyof SessionState];
    if (rule === AT) {
      // This part shows only a clock that was set back.
      a = (a + Math.imul(Math.max(0, (part as number) - now), 0x9e3779b1)) | 0;
      continue;
    }
    if (isThings(part)) {
      if (base) baseParts[slot] = undefined;
      continue;
    }
    if (near && part === baseParts[slot] && (sameHang || !baseHangs[slot])) {
      a = (a + (baseLows[slot] as number)) | 0;
      b = (b + (baseHighs[slot] as number)) | 0;
      continue;
    }
    hangs = false;
    if (rule === FLAG) low = high = part === null ? 1 : 2;
    else {
      atDropped = AT_DROPPED.has(key);
      hash(part);
    }
    mix(word);
    if (base) {
      baseParts[slot] = part;
      baseLows[slot] = low;
      baseHighs[slot] = high;
      baseHangs[slot] = hangs;
    }
    a = (a + low) | 0;
    b = (b + high) | 0;
  }
  low = a;
  high = b;
  deadClearances(state);
  mix(0x27d4eb2f);
  print.low = low >>> 0;
  print.high = high >>> 0;
}

/** A late command can still name a clearance that ended: the newest of each engine counts. */
function deadClearances({ ended }: SessionState): void {
  let a = low;
  let b = high;
  let told = 0;
  for (let i = ended.length - 1; i >= 0; i -= 1) {
    const signal = ended[i];
    if (signal?.kind !== "clearToStart" || (told & (1 << (signal.engine ?? 0))) !== 0) continue;
    told |= 1 << (signal.engine ?? 0);
    low = high = wordOf(signal.is);
    mix(signal.engine ?? 0);
    a = (a + low) | 0;
    b = (b + high) | 0;
  }
  low = a;
  high = b;
}

/** Takes the base's hash of the same object, if it has one. */
function recall(thing: { id: number }): boolean {
  for (const known of baseThings) {
    if (known.thing !== thing) continue;
    own[things] = thing;
    lows[things] = low = known.low;
    highs[things] = high = known.high;
    refs[things] = known.refs;
    things += 1;
    return true;
  }
  return false;
}

function sameThings(): boolean {
  if (things !== baseThings.length) return false;
  for (let i = 0; i < things; i += 1) if (own[i] !== baseThings[i]?.thing) return false;
  return true;
}

function isThings(part: unknown): part is { id: number }[] {
  return Array.isArray(part) && part.length > 0 && typeof part[0]?.id === "number";
}

function readThing(thing: { id: number }, list: number) {
  inThing = true;
  ownRefs = [];
  hash(thing);
  inThing = false;
  mix(list);
  own[things] = thing;
  lows[things] = low;
  highs[things] = high;
  refs[things] = ownRefs;
  things += 1;
}

/** Mixes in what an id refers to: the sum over the things with this id, or nothing when they are gone. */
function reference(id: number): void {
  let x = 0;
  let y = 0;
  for (let i = 0; i < things; i += 1) {
    if (own[i]?.id === id) {
      x = (x + (lows[i] as number)) | 0;
      y = (y + (highs[i] as number)) | 0;
    }
  }
  mix(x);
  mix(y);
}

function hash(value: unknown): void {
  switch (typeof value) {
    case "number":
      hashNumber(value);
      return;
    case "string":
      low = high = wordOf(value);
      mix(3);
      return;
    case "boolean":
      low = high = value ? 5 : 7;
      mix(4);
      return;
    case "object":
      if (value === null) {
        low = high = 11;
        mix(6);
      } else if (Array.isArray(value)) hashArray(value);
      else hashObject(value as Record<string, unknown>);
      return;
    default:
      low = high = 13;
      mix(8);
  }
}

function hashNumber(value: number): void {
  if (value >= MOMENTS) {
    const age = value - now;
    low = high = Math.max(age, -OLDEST);
    mix(17);
  } else if (value >= FIRST_ID) {
    if (inThing) {
      ownRefs.push(value);
      low = high = 19;
    } else {
      hangs = true;
      low = 23;
      high = 29;
      reference(value);
    }
  } else {
    low = high = (value * 16) | 0;
    mix(31);
  }
}

/** Hashes an array: numbers keep their order, anything else counts as a set. */
function hashArray(values: readonly unknown[]): void {
  let a = values.length;
  let b = 37;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i];
    hash(value);
    if (typeof value === "number") mix(i + 1);
    a = (a + low) | 0;
    b = (b + high) | 0;
  }
  low = a;
  high = b;
  mix(41);
}

function hashObject(value: Record<string, unknown>): void {
  let a = 43;
  let b = 47;
  for (const name in value) {
    const key = keyOf(name);
    if (key.rule === DROP || (key.rule === AT && atDropped)) continue;
    const part = value[name];
    if (part === undefined) continue;
    if (key.rule === ID && typeof part === "number" && part >= FIRST_ID && inThing) continue;
    if (key.rule === FLAG) low = high = part === null ? 1 : 2;
    else if (key.rule === TOUCH) {
      // Silence counts from the touch, or from the time the start became live if that was later; else not at all.
      hangs = true;
      hash(liveSince === null ? null : Math.max(part as number, liveSince));
    } else if (key.rule === EPOCH) {
      hangs = true;
      low = high = part === epoch ? 1 : 2;
    } else hash(part);
    mix(key.hash);
    a = (a + low) | 0;
    b = (b + high) | 0;
  }
  low = a;
  high = b;
  mix(53);
}

function mix(value: number): void {
  let x = Math.imul(low ^ Math.imul(value, 0x85ebca6b), 0xcc9e2d51);
  x ^= x >>> 15;
  let y = Math.imul(high ^ Math.imul(value, 0x1b873593), 0xc2b2ae35);
  y ^= y >>> 13;
  low = (Math.imul(x, 0x7feb352d) + y) | 0;
  high = (Math.imul(y, 0x846ca68b) ^ x) | 0;
  low ^= low >>> 16;
  high ^= high >>> 14;
}
