/**
 * The direction a person faces: `forward` from the cockpit or from behind the tail, `nose` from in front of the
 * aircraft.
 */
export type Facing = "forward" | "nose";

/** A side of the aircraft, never of the person who looks at it. */
export type Side = "port" | "centre" | "starboard";

/**
 * Returns engine numbers from the viewer's left to right. Number 1 is the outermost to port, so a person facing the
 * nose reads them from right to left (UK SI 2007/3468 Sch 8 r.63(5)).
 * @throws RangeError unless `count` is a whole number of at least one
 */
export function enginesSeen(count: number, facing: Facing): number[] {
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`no aircraft has ${count} engines`);
  const fromPort = Array.from({ length: count }, (_, i) => i + 1);
  return facing === "nose" ? fromPort.reverse() : fromPort;
}

/** The place of one engine. `span` is null for the only engine of a side and for a centre engine. */
export interface Position {
  side: Side;
  span: "outboard" | "middle" | "inboard" | null;
}

/**
 * Returns one engine's side and its place on that side, numbered from port (UK SI 2007/3468 Sch 8 r.63(5): of four, 1
 * port outer, 2 port inner, 3 starboard inner, 4 starboard outer). If the number of engines is odd, the middle one is
 * on the centre line.
 * @throws RangeError when there is no such engine
 */
export function engineStands(n: number, count: number): Position {
  if (!Number.isInteger(n) || n < 1 || n > count) throw new RangeError(`no engine ${n} of ${count}`);
  const perSide = Math.floor(count / 2);
  if (count % 2 === 1 && n === perSide + 1) return { side: "centre", span: null };
  const side = n <= perSide ? "port" : "starboard";
  const fromOutside = side === "port" ? n : count + 1 - n;
  if (perSide === 1) return { side, span: null };
  return { side, span: fromOutside === 1 ? "outboard" : fromOutside === perSide ? "inboard" : "middle" };
}
