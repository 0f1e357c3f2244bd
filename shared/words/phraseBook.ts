import { asSaid, type Phrase, type PhraseBook, type Piece } from "./piece.ts";

const PLACE = /\{([1-9a-d])\}/g;
/** One word followed by a figure, such as "number 3" or "temperature -60 degC". */
const HEADED = /^(.*\p{L}.*?) (-?\d+(?:\.\d+)?(?: \S+)?)$/u;
const JOINTS = ["; ", ", "] as const;
const SENTENCES = ". ";
const OF = ": ";
/** Most texts in the cache. Texts with changing figures do not repeat, so the cache must not grow without limit. */
const MOST_KEPT = 2000;

interface Pattern {
  /** A piece of the phrase that must occur in the text before the whole pattern is tried. */
  landmark: string;
  text: RegExp;
  places: string[];
  other: string;
}

function patternOf([english, other]: Phrase): Pattern {
  const parts = english.split(PLACE);
  const fixed = parts.filter((_, i) => i % 2 === 0);
  const source = fixed.map((part) => part.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&")).join("(.*?)");
  return {
    landmark: fixed.reduce((a, b) => (b.length > a.length ? b : a), ""),
    text: new RegExp(`^${source}$`, "s"),
    places: parts.filter((_, i) => i % 2 === 1),
    other,
  };
}

/** Returns a book that translates texts made of these phrases. */
export function phraseBook(phrases: readonly Phrase[]): PhraseBook {
  const whole = new Map(phrases.filter(([english]) => !english.includes("{")));
  const patterns = phrases.filter(([english]) => english.includes("{")).map(patternOf);
  const kept = new Map<string, readonly Piece[]>();

  function known(text: string): Piece[] | null {
    const said = whole.get(text);
    if (said !== undefined) return [asSaid(said)];
    return sentences(text) ?? patterned(text) ?? joined(text) ?? headed(text) ?? named(text);
  }

  /** Returns the pieces of several sentences; null unless each of them is known. */
  function sentences(text: string): Piece[] | null {
    const parts = text.split(SENTENCES);
    if (parts.length === 1) return null;
    return inRow(
      parts.map((part, i) => (i === parts.length - 1 ? known(part) : stopped(part))),
      " ",
    );
  }

  function stopped(part: string): Piece[] | null {
    const sentence = known(`${part}.`);
    if (sentence) return sentence;
    const bare = known(part);
    return bare && [...bare, asSaid(".")];
  }

  function patterned(text: string): Piece[] | null {
    for (const pattern of patterns) {
      const found = text.includes(pattern.landmark) ? pattern.text.exec(text) : null;
      if (!found) continue;
      return pattern.other
        .split(PLACE)
        .flatMap((part, i): Piece[] => {
          if (i % 2 === 0) return [asSaid(part)];
          const held = found[pattern.places.indexOf(part) + 1] ?? "";
          return /[a-d]/.test(part) ? [{ words: held, asWritten: true }] : (known(held) ?? [asSaid(held)]);
        })
        .filter((p) => p.words !== "");
    }
    return null;
  }

  /** Returns the pieces of several phrases in a row; null unless each of them is known. */
  function joined(text: string): Piece[] | null {
    for (const joint of JOINTS) {
      const parts = text.split(joint);
      const said = parts.length === 1 ? null : inRow(parts.map(known), joint);
      if (said) return said;
    }
    return null;
  }

  function inRow(parts: readonly (Piece[] | null)[], joint: string): Piece[] | null {
    if (!parts.every((p) => p !== null)) return null;
    return parts.flatMap((p, i) => (i === 0 ? p : [asSaid(joint), ...p]));
  }

  function headed(text: string): Piece[] | null {
    const [, head, figure] = HEADED.exec(text) ?? [];
    const said = head === undefined ? null : known(head);
    return said && [...said, asSaid(` ${figure}`)];
  }

  /** Returns the pieces of a phrase about a name, or about a place that is a phrase itself; null if it is not known. */
  function named(text: string): Piece[] | null {
    const at = text.indexOf(OF);
    const said = at === -1 ? null : known(text.slice(at + OF.length));
    if (!said) return null;
    const name = text.slice(0, at);
    return [...(known(name) ?? [asSaid(name)]), asSaid(OF), ...said];
  }

  return (text) => {
    const before = kept.get(text);
    if (before) return before;
    const said = known(text) ?? [{ words: text, asWritten: /\p{L}{2}/u.test(text) }];
    if (kept.size >= MOST_KEPT) kept.clear();
    kept.set(text, said);
    return said;
  };
}
