/** These never decide anything: words, records of the past, and counters whose rise every step checks. */
const DROPPED = new Set([
  "name",
  "note",
  "basis",
  "issuedBy",
  "since",
  "stageSince",
  "channel",
  "attempts",
  "type",
  "aircraft",
  "place",
  "crew",
  "v",
  "seq",
  "fence",
  "ended",
  "exceeded",
  "delivered",
  "drillsOpened",
]);
/** Moments for which it only matters whether there is one. */
const FLAGS = new Set(["doneAt", "readBackAt", "firstOilAt", "allClearAt", "liveSince", "lastRanAt"]);
/** Parts in which the time of a report decides nothing any more, because its deadlines are beside it. */
export const AT_DROPPED = new Set([
  "signals",
  "holds",
  "cuts",
  "fires",
  "alerts",
  "authorities",
  "offers",
  "posts",
  "readings",
  "checks",
  "chocks",
  "engines",
  "defects",
  "drills",
  "weather",
  "handling",
  "returning",
  "leavesOut",
  "card",
]);

const PLAIN = 0;
export const DROP = 1;
export const FLAG = 2;
export const EPOCH = 3;
export const AT = 4;
export const ID = 5;
export const TOUCH = 6;

interface Key {
  hash: number;
  rule: number;
  /** Its place in the tables of the base's parts. */
  slot: number;
}
const keys = new Map<string, Key>();
const words = new Map<string, number>();

/** Returns what is known of a field by its name. */
export function keyOf(name: string): Key {
  const known = keys.get(name);
  if (known) return known;
  const rule = DROPPED.has(name)
    ? DROP
    : FLAGS.has(name)
      ? FLAG
      : name === "epoch"
        ? EPOCH
        : name === "at"
          ? AT
          : name === "id"
            ? ID
            : name === "touchedAt"
              ? TOUCH
              : PLAIN;
  const made = { hash: wordOf(name), rule, slot: keys.size };
  keys.set(name, made);
  return made;
}

/** Returns a number for a word, the same in every run. */
export function wordOf(text: string): number {
  const known = words.get(text);
  if (known !== undefined) return known;
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d) ^ (text.length << 20);
  words.set(text, h);
  return h;
}
