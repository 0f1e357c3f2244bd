import { giverMarks, LOWEST } from "./giver.ts";
import { handMarks, reachOf } from "./hands.ts";
import { armJoints, type Point } from "./kinematics.ts";
import { type Mark, outlined, type Spot, seen, type Tone, through } from "./marks.ts";
import { showing } from "./motion.ts";
import { between, type Pose, type Side } from "./pose.ts";
import type { Form, HandSignal } from "./signal.ts";

const SIDES = ["right", "left"] as const;
const SLEEVE = 5.6;

/** A window on the drawing. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/**
 * Returns one pose of a signal as its reader sees it, facing the giver: the giver's right arm is on the reader's left.
 * `line` is the width of the outline in drawing units; the caller chooses it by the size of the drawing.
 */
export function figureMarks(signal: HandSignal, form: Form, pose: Pose, line: number, shift = 0): Mark[] {
  const arms = SIDES.map((side) => ({ side, joints: armJoints(side, pose[side]) }));
  // The nearer arm is drawn over the farther one.
  arms.sort((a, b) => a.joints.wrist.z + a.joints.elbow.z - b.joints.wrist.z - b.joints.elbow.z);
  return [
    ...giverMarks(signal.giver, line, shift),
    ...arms.flatMap(({ side, joints }) => {
      const tone: Tone = signal.acts.includes(side) ? "ink" : "soft";
      const { shoulder, elbow, wrist } = joints;
      const sleeve = [shoulder, elbow, wrist].map((p) => seen(p, shift));
      if (signal.giver === "pilot" && tone === "soft") return [];
      return [
        ...outlined([{ spots: sleeve, thick: SLEEVE }], line, tone),
        ...handMarks(side, pose[side], joints, form, line, shift).map((m) =>
          m.stroke === "ink" ? { ...m, stroke: tone } : m,
        ),
      ];
    }),
  ];
}

/** Width of the outlines, in CSS pixels or in the unit of the drawing's height. */
const WEIGHT = 1.7;

/** Returns the outline's width in drawing units for a drawing of this height in pixels. */
export function lineFor(box: Box, height: number): number {
  return (WEIGHT * box.height) / height;
}

/** Returns the box that holds every pose of this form. Its height is the same for all signals of one giver. */
export function figureBox(signal: HandSignal, form: Form): Box {
  const reach = reachOf(form);
  const keys = showing(signal, form);
  const poses = keys.flatMap((k, i) => {
    const before = keys.at(i - 1)?.pose ?? k.pose;
    return [0.25, 0.5, 0.75, 1].map((part) => between(before, k.pose, part));
  });
  const spots = poses.flatMap((pose) =>
    SIDES.flatMap((s) => [seen(handEnd(pose, s, reach)), seen(armJoints(s, pose[s]).elbow)]),
  );
  const half = Math.max(20, ...spots.map((t) => Math.abs(t.x))) + 4.5;
  const top = signal.giver === "pilot" ? -114 : form === "wand" ? -144 : -132;
  return { x: -half, y: top, width: 2 * half, height: -top - LOWEST[signal.giver] + 3 };
}

function handEnd(pose: Pose, side: Side, reach: number): Point {
  const { wrist, along } = armJoints(side, pose[side]);
  return { x: wrist.x + along.x * reach, y: wrist.y + along.y * reach, z: wrist.z + along.z * reach };
}

/** Returns the way of the acting hands through these poses: a dashed line that ends in an arrow head. */
export function wayMarks(
  signal: HandSignal,
  form: Form,
  poses: readonly Pose[],
  line: number,
  shift = 0,
): Mark[] {
  return signal.acts.flatMap((side): Mark[] => {
    const way = poses.slice(1).flatMap((to, i) => {
      const from = poses[i] ?? to;
      return Array.from({ length: 17 }, (_, k) =>
        seen(handEnd(between(from, to, k / 16), side, reachOf(form)), shift),
      );
    });
    const length = way.reduce((sum, s, i) => sum + far(s, way[i - 1] ?? s), 0);
    const end = way.at(-1);
    if (length < 4 || !end) return [];
    const before = way.findLast((s) => far(s, end) > 2) ?? end;
    return [
      { d: through(way), stroke: "ink", fill: null, width: line * 0.8, dashed: true },
      { d: head(before, end), stroke: "ink", fill: "ink", width: line * 0.6 },
    ];
  });
}

const far = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);

function head(from: Spot, tip: Spot): string {
  const l = far(from, tip) || 1;
  const [x, y] = [(tip.x - from.x) / l, (tip.y - from.y) / l];
  const corner = (side: number): Spot => ({ x: tip.x - x * 4.6 + y * side, y: tip.y - y * 4.6 - x * side });
  return through([tip, corner(1.9), corner(-1.9)], true);
}
