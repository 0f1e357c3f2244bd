/** The two keys that a person taught this device. Null: not taught. */
export interface Taught {
  answer: string | null;
  hold: string | null;
}

export const NOTHING_TAUGHT: Taught = { answer: null, hold: null };

export type TaughtAct = keyof Taught;

/** One key press, as the browser reports it. */
export interface Press {
  /** The key's place on the keyboard; empty where the device does not say. */
  code: string;
  /** The text that the key types, or its name. */
  key: string;
  /** True while the key is held down and the press repeats. */
  repeat: boolean;
  /** True when the browser made the event from a person's input. */
  trusted: boolean;
  /** True when Control, Alt or Meta is held down, or the press composes a letter. */
  combined: boolean;
  /** True when text is entered in the field that has the focus. */
  inField: boolean;
}

/** The state of the panel at the moment of the press. */
export interface Shown {
  /** True when the ask in front has an answer for the remote that may be sent now. */
  answerable: boolean;
  /** True while an entry or a sheet is open, or an answer is on its way. */
  busy: boolean;
  /** Time for which the ask has stood in front, milliseconds. */
  forMs: number;
}

/**
 * An ask that has just come to the front takes no press for this long: a thumb that presses twice must not answer the
 * next ask.
 */
export const UNSEEN_MS = 1_000;

/** `nothing`: the key is taught and has no effect now. Null: the press is not for the remote. */
export type Does = TaughtAct | "nothing" | null;

/** Returns what a key press does. */
export function keyDoes(taught: Taught, press: Press, shown: Shown): Does {
  const name = keyName(press);
  if (name === null || press.combined || !press.trusted) return null;
  if (press.inField && types(press)) return null;
  if (name === taught.hold) return press.repeat ? "nothing" : "hold";
  if (name !== taught.answer) return null;
  const may = shown.answerable && !shown.busy && !press.inField && shown.forMs >= UNSEEN_MS;
  return may && !press.repeat ? "answer" : "nothing";
}

const UNKNOWN: ReadonlySet<string> = new Set(["", "Unidentified", "Process", "Dead"]);

/** Returns the name by which a key is kept: its place, or else its meaning. Null when the browser tells neither. */
export function keyName({ code, key }: Pick<Press, "code" | "key">): string | null {
  if (!UNKNOWN.has(code)) return code;
  return UNKNOWN.has(key) ? null : key;
}

const EDITS: ReadonlySet<string> = new Set([
  "ArrowDown",
  "ArrowLeft",
  "ArrowRight",
  "ArrowUp",
  "Backspace",
  "Delete",
  "End",
  "Enter",
  "Home",
]);

const types = ({ key }: Press): boolean => [...key].length === 1 || EDITS.has(key);

/** Keys without which the panel cannot be used from a keyboard, and keys that are held with others. */
const KEPT_BACK =
  /^(Tab|Escape|CapsLock|NumLock|ScrollLock|Fn|FnLock|(Shift|Control|Alt|AltGraph|Meta|OS)(Left|Right)?)$/;

export type CannotTeach = "unknown" | "keptBack" | "taken";

/** Returns the keys after one was taught, or why this key cannot be. */
export function teach(
  taught: Taught,
  act: TaughtAct,
  press: Pick<Press, "code" | "key">,
): Taught | CannotTeach {
  const name = keyName(press);
  if (name === null) return "unknown";
  if (KEPT_BACK.test(name) || KEPT_BACK.test(press.key)) return "keptBack";
  const other = act === "answer" ? taught.hold : taught.answer;
  return other === name ? "taken" : { ...taught, [act]: name };
}

/** Returns the keys that this device stored; a stored value that is none is dropped. */
export function taughtFrom(stored: unknown): Taught {
  const { answer, hold } = (typeof stored === "object" && stored !== null ? stored : {}) as Partial<
    Record<TaughtAct, unknown>
  >;
  const name = (of: unknown) => (typeof of === "string" && of.length > 0 && !KEPT_BACK.test(of) ? of : null);
  const held = name(hold);
  return { answer: name(answer) === held ? null : name(answer), hold: held };
}
