import { type Box, figureBox, figureMarks, lineFor, wayMarks } from "./figure.ts";
import type { Mark, Tone } from "./marks.ts";
import { keysOf } from "./motion.ts";
import type { Form, HandSignal, Key } from "./signal.ts";

/** A still drawing: paths within a box. */
export interface Sheet {
  box: Box;
  marks: Mark[];
  /** Left edge of each pose of a strip, left to right. */
  starts: readonly number[];
}

const GAP = 6;
/** Most poses that a reader can tell apart on a page. Of a circling hand every other pose is left out. */
const MOST = 4;

/**
 * Returns one pose alone, the one that shows the signal best, with the way of the hands. `height` is in pixels or
 * points.
 */
export function still(signal: HandSignal, form: Form, height: number): Sheet {
  const keys = keysOf(signal, form);
  const shown = keys[signal.still];
  if (!shown) throw new RangeError(`${signal.key} has no form ${form}`);
  const box = figureBox(signal, form);
  const line = lineFor(box, height);
  const poses = wayTo(signal, keys).map((k) => k.pose);
  const marks = [...figureMarks(signal, form, shown.pose, line), ...wayMarks(signal, form, poses, line)];
  return { box, marks, starts: [box.x] };
}

/**
 * Returns the keys whose way is drawn beside the still pose: the whole round of a repeated signal, else all keys up to
 * the pose.
 */
function wayTo(signal: HandSignal, keys: readonly Key[]): readonly Key[] {
  const first = keys[0];
  if (signal.course !== "again" || keys.length < 3 || !first) {
    return signal.still > 0 ? keys.slice(0, signal.still + 1) : [...keys].reverse();
  }
  return [...keys, first];
}

/** Returns the key poses side by side in their order, each with the way of the hands to it. */
export function strip(signal: HandSignal, form: Form, height: number): Sheet {
  const keys = thinned(keysOf(signal, form));
  const one = figureBox(signal, form);
  const line = lineFor(one, height);
  const step = one.width + GAP;
  const marks = keys.flatMap((k, i) => {
    const before = keys[i - 1] ?? (signal.course === "again" ? keys.at(-1) : undefined);
    const poses = before ? [before.pose, k.pose] : [];
    return [
      ...figureMarks(signal, form, k.pose, line, i * step),
      ...wayMarks(signal, form, poses, line, i * step),
    ];
  });
  return {
    box: { ...one, width: keys.length * step - GAP },
    marks,
    starts: keys.map((_, i) => one.x + i * step),
  };
}

function thinned(keys: readonly Key[]): readonly Key[] {
  return keys.length > MOST ? keys.filter((_, i) => i % 2 === 0) : keys;
}

/** Colours for paper: dark lines on white, and for the wand a grey that prints. */
const ON_PAPER: Readonly<Record<Tone, string>> = { ink: "#000", soft: "#777", paper: "#fff", light: "#ccc" };

/** Returns a sheet as a whole SVG document, for print. */
export function sheetSvg({ box, marks }: Sheet): string {
  const paths = marks.map(
    (m) =>
      `<path d="${m.d}" fill="${m.fill ? ON_PAPER[m.fill] : "none"}" stroke="${m.stroke ? ON_PAPER[m.stroke] : "none"}" ` +
      `stroke-width="${m.width}" stroke-linecap="round" stroke-linejoin="round"${m.dashed ? ' stroke-dasharray="2.4 2"' : ""}/>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box.x} ${box.y} ${box.width} ${box.height}">${paths.join("")}</svg>`;
}
