import { BODY } from "./body.ts";
import type { ArmJoints } from "./kinematics.ts";
import { type Limb, type Mark, outlined, type Spot, seen, through } from "./marks.ts";
import type { Arm, Side } from "./pose.ts";
import type { Form } from "./signal.ts";

/** Returns a place on a hand: its distance along the hand, and aside towards the thumb. */
type Place = (along: number, aside: number) => Spot;

const FINGERS = [2.7, 0.9, -0.9, -2.7] as const;
const REACH = [11.8, 13, 12.2, 10.2] as const;

/** Returns the distance from the wrist to the end of a gesture: the fingertips, or the wand's tip. */
export function reachOf(form: Form): number {
  return form === "wand" ? 4 + BODY.wand : BODY.hand;
}

/** Returns the marks of one hand, with its shape and palm. */
export function handMarks(
  side: Side,
  arm: Arm,
  joints: ArmJoints,
  form: Form,
  line: number,
  shift: number,
): Mark[] {
  const wrist = seen(joints.wrist, shift);
  const tip = seen(joints.tip, shift);
  const d = { x: (tip.x - wrist.x) / BODY.hand, y: (tip.y - wrist.y) / BODY.hand };
  const length = Math.hypot(d.x, d.y) || 1;
  // With the palm to the reader the thumb is on the giver's inner side.
  const thumb = (side === "right" ? 1 : -1) * (arm.palm === "giver" ? -1 : 1);
  const n = { x: (-d.y / length) * thumb, y: (d.x / length) * thumb };
  const at: Place = (along, aside) => ({
    x: wrist.x + d.x * along + n.x * aside,
    y: wrist.y + d.y * along + n.y * aside,
  });
  if (form === "wand") return [...wand(at, line), ...fist(at, line)];
  switch (arm.hand.is) {
    case "open":
      return arm.palm === "reader" || arm.palm === "giver" ? fingers(at, 5, line) : flat(at, line);
    case "flat":
      return flat(at, line);
    case "fist":
      return fist(at, line);
    case "point":
      return [...outlined([{ spots: [at(3, 1), at(BODY.hand, 1)], thick: 2.6 }], line), ...fist(at, line)];
    case "thumbUp":
      return thumbMarks(at, -1, line);
    case "thumbDown":
      return thumbMarks(at, 1, line);
    case "fingers":
      return fingers(at, arm.hand.n, line);
  }
}

function flat(at: Place, line: number): Mark[] {
  return outlined(
    [
      { spots: [at(0, 0), at(6, 0)], thick: 3.6 },
      { spots: [at(5, 0), at(BODY.hand - 1.2, 0)], thick: 2.4 },
    ],
    line,
  );
}

function fist(at: Place, line: number): Mark[] {
  const knuckles = [-1.6, 0.3, 2.2].map(
    (aside): Mark => ({
      d: through([at(4.2, aside), at(6.2, aside)]),
      stroke: "ink",
      fill: null,
      width: line * 0.8,
    }),
  );
  return [
    ...outlined([{ spots: [at(2.2, -0.9), at(4.2, -0.9), at(4.2, 0.9), at(2.2, 0.9)], thick: 5.4 }], line),
    ...knuckles,
  ];
}

/** Returns the marks of `n` stretched fingers, beginning beside the thumb; five are the whole open hand. */
function fingers(at: Place, n: number, line: number): Mark[] {
  const stretched: Limb[] = FINGERS.slice(0, n).map((aside, i) => ({
    spots: [at(4, aside), at(REACH[i] ?? 12, aside * 1.45)],
    thick: 2.3,
  }));
  const folded: Limb[] = FINGERS.slice(n).map((aside) => ({
    spots: [at(4, aside), at(5.6, aside)],
    thick: 2.3,
  }));
  const palm: Limb = { spots: [at(1.8, -1.2), at(4.4, -1.2), at(4.4, 1.2), at(1.8, 1.2)], thick: 4.4 };
  const thumb: Limb =
    n === 5
      ? { spots: [at(2.4, 2.4), at(6.6, 6.4)], thick: 2.3 }
      : { spots: [at(2.2, 2.2), at(4, -0.6)], thick: 2 };
  return n === 5
    ? outlined([...stretched, thumb, palm], line)
    : [...outlined([...stretched, ...folded, palm], line), ...outlined([thumb], line * 0.8)];
}

/**
 * Returns the marks of a closed hand from its side, the thumb up or down on the sheet in every direction of the arm.
 */
function thumbMarks(at: Place, down: 1 | -1, line: number): Mark[] {
  const c = at(3.4, 0);
  const spot = (x: number, y: number): Spot => ({ x: c.x + x, y: c.y + y * down });
  const block = outlined(
    [{ spots: [spot(-2.4, -1.2), spot(2.4, -1.2), spot(2.4, 1.2), spot(-2.4, 1.2)], thick: 4 }],
    line,
  );
  const folds = [-1.2, 0.6].map(
    (y): Mark => ({ d: through([spot(-0.6, y), spot(4, y)]), stroke: "ink", fill: null, width: line * 0.8 }),
  );
  return [...outlined([{ spots: [spot(-1.6, 2), spot(-1.6, 9)], thick: 3.4 }], line), ...block, ...folds];
}

function wand(at: Place, line: number): Mark[] {
  return outlined([{ spots: [at(0, 0), at(4 + BODY.wand, 0)], thick: 3 }], line, "ink", "light");
}
