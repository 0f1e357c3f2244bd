import type { Facing } from "../../../shared/models/facing.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";

/** Width of the drawing in its own units; the height follows from the aircraft's proportions. */
export const WIDTH = 1000;
/** Space between the engines' keys and the nose, drawing units. */
const APRON = 70;
/**
 * The part of the fuselage that is shortened between the break lines, as fractions of the length: nothing stands
 * there.
 */
const BREAK = { from: 0.62, to: 0.84, drawn: 0.1 };

export interface Point {
  x: number;
  y: number;
}

export interface Drawing {
  height: number;
  /** Drawing units per metre. */
  scale: number;
  /** Returns the point of a station (x aft of the nose, y to starboard, metres) on the drawing. */
  at(x: number, y: number): Point;
}

/** Returns a station's distance aft of the nose after shortening the part between the break lines, metres. */
function shortened(x: number, length: number): number {
  const from = length * BREAK.from;
  const to = length * BREAK.to;
  if (x <= from) return x;
  const inside = Math.min(x, to) - from;
  return from + inside * BREAK.drawn + Math.max(0, x - to);
}

/** Returns a drawing that fits the aircraft: nose up for a person facing forward, nose down for one facing the nose. */
export function drawingOf(type: AircraftType, facing: Facing): Drawing {
  const { span, length } = type.plan;
  const scale = WIDTH / (span * 1.12);
  const fore = Math.min(0, ...type.engines.map((e) => e.x));
  const height = APRON + (shortened(length, length) - fore) * scale + 24;
  return {
    height,
    scale,
    at(x, y) {
      const down = APRON + (shortened(x, length) - fore) * scale;
      const across = WIDTH / 2 + y * scale;
      return facing === "forward" ? { x: across, y: down } : { x: WIDTH - across, y: height - down };
    },
  };
}

type Station = readonly [x: number, y: number];

/**
 * Returns an SVG path through stations. A part of three stations is a cubic curve; any other part is straight lines.
 */
function path(d: Drawing, start: Station, parts: readonly (readonly Station[])[]): string {
  const say = (s: Station) => {
    const p = d.at(s[0], s[1]);
    return `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
  };
  const body = parts.map((part) => `${part.length === 3 ? "C" : "L"}${part.map(say).join(" ")}`);
  return `M${say(start)}${body.join("")}Z`;
}

/** Returns the wing's leading edge at distance `y` from the centre line, metres aft of the nose. */
export function leadingEdge(type: AircraftType, y: number): number {
  const { length, span } = type.plan;
  const wing = type.engines.filter((e) => e.y !== 0);
  const inner = wing.reduce(
    (best, e) => (Math.abs(e.y) < Math.abs(best.y) ? e : best),
    wing[0] ?? { x: length * 0.3, y: span * 0.1 },
  );
  const outer = wing.reduce((best, e) => (Math.abs(e.y) > Math.abs(best.y) ? e : best), inner);
  const between = Math.abs(outer.y) - Math.abs(inner.y);
  const sweep = between > 0 ? (outer.x - inner.x) / between : 0.06;
  return inner.x + length * 0.075 + sweep * (Math.abs(y) - Math.abs(inner.y));
}

export function fuselage(type: AircraftType, d: Drawing): string {
  const L = type.plan.length;
  const w = L * 0.052;
  return path(
    d,
    [0, 0],
    [
      [
        [0, w * 0.75],
        [L * 0.05, w],
        [L * 0.13, w],
      ],
      [[L * 0.56, w]],
      [
        [L * 0.75, w],
        [L * 0.9, w * 0.45],
        [L, w * 0.12],
      ],
      [[L, -w * 0.12]],
      [
        [L * 0.9, -w * 0.45],
        [L * 0.75, -w],
        [L * 0.56, -w],
      ],
      [[L * 0.13, -w]],
      [
        [L * 0.05, -w],
        [0, -w * 0.75],
        [0, 0],
      ],
    ],
  );
}

export function wing(type: AircraftType, d: Drawing, side: 1 | -1): string {
  const { span, length } = type.plan;
  const root = length * 0.045;
  const tip = span / 2;
  const chord = span * 0.135;
  const tipChord = chord * 0.42;
  const le = (y: number) => leadingEdge(type, y);
  const round = span * 0.02;
  return path(
    d,
    [le(root), side * root],
    [
      [[le(tip - round), side * (tip - round)]],
      [
        [le(tip), side * tip],
        [le(tip) + tipChord * 0.3, side * tip],
        [le(tip) + tipChord * 0.5, side * tip],
      ],
      [
        [le(tip) + tipChord * 0.8, side * tip],
        [le(tip) + tipChord, side * (tip - round * 0.5)],
        [le(tip) + tipChord, side * (tip - round * 2)],
      ],
      [[le(root) + chord, side * root]],
    ],
  );
}

export function tailplane(type: AircraftType, d: Drawing): string {
  const { span, length } = type.plan;
  const y = span * 0.18;
  const chord = length * 0.095;
  const le = length * 0.875;
  return path(
    d,
    [le, length * 0.012],
    [
      [[le + chord * 0.3, y]],
      [
        [le + chord * 0.3, y * 1.03],
        [le + chord * 0.95, y * 1.03],
        [le + chord * 0.95, y],
      ],
      [[le + chord * 1.1, length * 0.01]],
      [[le + chord * 1.1, -length * 0.01]],
      [[le + chord * 0.95, -y]],
      [
        [le + chord * 0.95, -y * 1.03],
        [le + chord * 0.3, -y * 1.03],
        [le + chord * 0.3, -y],
      ],
      [[le, -length * 0.012]],
    ],
  );
}

export function nacelle(type: AircraftType, d: Drawing, engine: { x: number; y: number }): string {
  const w = type.propeller.diameter * 0.19;
  const L = type.plan.length;
  const front = engine.x + L * 0.012;
  const back = leadingEdge(type, engine.y) + type.plan.span * 0.075;
  const { y } = engine;
  return path(
    d,
    [front, y - w * 0.8],
    [
      [[front, y + w * 0.8]],
      [
        [front + w * 0.3, y + w],
        [front + w * 0.6, y + w],
        [front + w, y + w],
      ],
      [[back - w * 2, y + w]],
      [
        [back - w, y + w],
        [back, y + w * 0.3],
        [back, y],
      ],
      [
        [back, y - w * 0.3],
        [back - w, y - w],
        [back - w * 2, y - w],
      ],
      [[front + w, y - w]],
      [
        [front + w * 0.6, y - w],
        [front + w * 0.3, y - w],
        [front, y - w * 0.8],
      ],
    ],
  );
}

/** Returns the two break lines across the fuselage, and the gap between them. */
export function breakLines(type: AircraftType, d: Drawing): { gap: string; lines: string[] } {
  const L = type.plan.length;
  const w = L * 0.06;
  const line = (x: number) => {
    const [a, b, c, e] = [d.at(x, -w), d.at(x, -w / 3), d.at(x, w / 3), d.at(x, w)];
    const bend = (b.x - a.x) * 0.35;
    return {
      text: `${a.x} ${a.y}L${b.x} ${b.y}L${(b.x + c.x) / 2 - bend / 2} ${b.y - 9}L${(b.x + c.x) / 2 + bend / 2} ${b.y + 9}L${c.x} ${c.y}L${e.x} ${e.y}`,
      a,
      e,
    };
  };
  const one = line(L * BREAK.from);
  const two = line(L * BREAK.to);
  return {
    gap: `M${one.a.x} ${one.a.y}L${one.e.x} ${one.e.y}L${two.e.x} ${two.e.y}L${two.a.x} ${two.a.y}Z`,
    lines: [`M${one.text}`, `M${two.text}`],
  };
}

/** Returns the rectangle between two stations. */
export function box(d: Drawing, x1: number, y1: number, x2: number, y2: number) {
  const a = d.at(x1, y1);
  const b = d.at(x2, y2);
  return {
    x: Math.min(a.x, b.x),
    y: Math.min(a.y, b.y),
    width: Math.abs(a.x - b.x),
    height: Math.abs(a.y - b.y),
  };
}
