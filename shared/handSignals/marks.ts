import type { Point } from "./kinematics.ts";

/** `light` is a lit wand. Screens and printers give the tones their colours. */
export type Tone = "ink" | "soft" | "paper" | "light";

/** One path of a drawing, in drawing units: x to the right, y down, hundredths of the giver's height. */
export interface Mark {
  d: string;
  stroke: Tone | null;
  fill: Tone | null;
  width: number;
  dashed?: boolean;
}

/** A place on the sheet. */
export interface Spot {
  x: number;
  y: number;
}

/**
 * Share of the depth towards the reader that is drawn as lower, because a flight deck looks down on the ramp a little.
 */
const SEEN_FROM_ABOVE = 0.25;

/** Returns the drawn place of a point of the giver; `shift` moves the figure along a strip. */
export function seen(p: Point, shift = 0): Spot {
  return { x: p.x + shift, y: -p.y + SEEN_FROM_ABOVE * p.z };
}

const two = (n: number): string => String(Math.round(n * 100) / 100);

/** Returns path data through spots, open or closed. */
export function through(spots: readonly Spot[], closed = false): string {
  return `M${spots.map((s) => `${two(s.x)} ${two(s.y)}`).join("L")}${closed ? "Z" : ""}`;
}

/** Returns path data of an ellipse. */
export function ellipse(c: Spot, rx: number, ry: number): string {
  return `M${two(c.x - rx)} ${two(c.y)}a${two(rx)} ${two(ry)} 0 1 0 ${two(2 * rx)} 0a${two(rx)} ${two(ry)} 0 1 0 ${two(-2 * rx)} 0Z`;
}

/** A limb's line and its thickness. */
export interface Limb {
  spots: readonly Spot[];
  thick: number;
}

/**
 * Returns the marks of limbs that belong together, with one outline around them all: drawn wide in ink, then narrower
 * in the fill colour.
 */
export function outlined(
  limbs: readonly Limb[],
  line: number,
  ink: Tone = "ink",
  filling: Tone = "paper",
): Mark[] {
  const draw = (stroke: Tone, more: number): Mark[] =>
    limbs.map((l) => ({ d: through(l.spots), stroke, fill: null, width: l.thick + more }));
  return [...draw(ink, line), ...draw(filling, -line)];
}
