import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { HAND_SIGNALS, handSignal } from "../../shared/handSignals/all.ts";
import { arm } from "../../shared/handSignals/arms.ts";
import { BODY } from "../../shared/handSignals/body.ts";
import { figureBox } from "../../shared/handSignals/figure.ts";
import { reachOf } from "../../shared/handSignals/hands.ts";
import { armJoints, type Point } from "../../shared/handSignals/kinematics.ts";
import { LOOK_ALIKES } from "../../shared/handSignals/lookAlikes.ts";
import { seen } from "../../shared/handSignals/marks.ts";
import { handWay, keysOf, lasts, poseAt, showing } from "../../shared/handSignals/motion.ts";
import type { Pose } from "../../shared/handSignals/pose.ts";
import { quiz } from "../../shared/handSignals/quiz.ts";
import { sheetSvg, still, strip } from "../../shared/handSignals/strip.ts";
import { forEngine } from "../../shared/handSignals/variant.ts";
import { engineStands, enginesSeen } from "../../shared/models/facing.ts";
import { SIGNAL_KINDS } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { stancesOf } from "./seen.ts";

const far = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
const FORMS = ["day", "wand"] as const;

describe("kinematics of an arm", () => {
  it("[HSG-2] keeps the length of every segment whatever the angles", () => {
    const angle = fc.double({ min: -260, max: 260, noNaN: true });
    const pair = fc.tuple(angle, angle);
    fc.assert(
      fc.property(fc.constantFrom("right" as const, "left" as const), pair, pair, pair, (side, s, e, w) => {
        const j = armJoints(side, arm(s, e, { is: "flat" }, "in", w));
        expect(far(j.shoulder, j.elbow)).toBeCloseTo(BODY.upperArm, 9);
        expect(far(j.elbow, j.wrist)).toBeCloseTo(BODY.forearm, 9);
        expect(far(j.wrist, j.tip)).toBeCloseTo(BODY.hand, 9);
        // The elbow's bend is the angle between the two segments.
        const cos =
          ((j.elbow.x - j.shoulder.x) * (j.wrist.x - j.elbow.x) +
            (j.elbow.y - j.shoulder.y) * (j.wrist.y - j.elbow.y) +
            (j.elbow.z - j.shoulder.z) * (j.wrist.z - j.elbow.z)) /
          (BODY.upperArm * BODY.forearm);
        expect(cos).toBeCloseTo(Math.cos((e[0] * Math.PI) / 180), 9);
      }),
      { seed: 63, numRuns: 300 },
    );
  });

  it("[HSG-2] straight arms end where arithmetic says: down, level, forward, up", () => {
    const reach = BODY.upperArm + BODY.forearm + BODY.hand;
    const tip = (e: number, a: number) => armJoints("left", arm([e, a], [0, 0])).tip;
    const [x, y] = [BODY.shoulderHalf, BODY.shoulderHeight];
    const near = (p: Point, q: Point) => expect(far(p, q)).toBeLessThan(1e-9);
    near(tip(0, 0), { x, y: y - reach, z: 0 });
    near(tip(90, 0), { x: x + reach, y, z: 0 });
    near(tip(90, 90), { x, y, z: reach });
    near(tip(180, 0), { x, y: y + reach, z: 0 });
  });

  it("[HSG-2] the giver's right arm is on the reader's left, and the arms mirror one another", () => {
    const bent = arm([70, 30], [80, 20], { is: "flat" }, "in", [30, -40]);
    const [r, l] = [armJoints("right", bent), armJoints("left", bent)];
    expect(r.shoulder.x).toBeLessThan(0);
    expect(seen(r.shoulder).x).toBeLessThan(seen(l.shoulder).x);
    expect(far(r.tip, { ...l.tip, x: -l.tip.x })).toBeLessThan(1e-9);
  });
});

describe("the set of figures", () => {
  it("[HSG-1] holds every figure the catalogue names, and what the catalogue gives no form has none", () => {
    const keys = HAND_SIGNALS.map((s) => s.key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const kind of SIGNAL_KINDS) {
      const { standard } = signalOf(kind);
      if (standard) expect(keys, kind).toContain(standard.figure);
    }
    for (const kind of ["cranking", "started", "arcNotClear", "turning", "powerConnected"] as const)
      expect(signalOf(kind).standard, kind).toBeNull();
  });

  it("[HSG-1] every figure says where its wording comes from and how sure that is", () => {
    for (const s of HAND_SIGNALS) {
      expect(s.sources.length, s.key).toBeGreaterThan(0);
      for (const { cite, known } of s.sources) {
        expect(cite, s.key).toMatch(/ICAO|UK SI|FAA|Navy|marshalling sets|moment/);
        expect(["read", "secondHand", "fromMemory"], s.key).toContain(known);
      }
    }
    const sure = (key: string) => handSignal(key).sources.map((s) => s.known);
    for (const key of ["brakesEngaged", "insertChocks", "removeChocks", "readyToStart", "emergencyContained"])
      expect(sure(key)[0], key).toBe("read");
    for (const key of ["connectPower", "disconnectPower", "negative", "chocksInserted"])
      expect(sure(key), key).toEqual(["fromMemory"]);
  });

  it("[HSG-1] look-alikes name drawn signals, two at least", () => {
    for (const { keys } of LOOK_ALIKES) {
      expect(keys.length).toBeGreaterThan(1);
      for (const key of keys) expect(handSignal(key).key).toBe(key);
    }
    const told = (...keys: string[]) => LOOK_ALIKES.some((l) => keys.every((k) => l.keys.includes(k)));
    expect(told("holdStandBy", "emergencyContained")).toBe(true);
    expect(told("recommendStop", "emergencyStop")).toBe(true);
    expect(told("insertChocks", "removeChocks")).toBe(true);
  });

  it("[HSG-3] no elbow bends backwards or too far, and hands stay within reach of their window", () => {
    for (const s of HAND_SIGNALS)
      for (const form of FORMS)
        for (const { right, left } of stancesOf(s, form))
          for (const a of [right, left]) {
            expect(a.arm.elbow[0], s.key).toBeGreaterThanOrEqual(0);
            expect(a.arm.elbow[0], s.key).toBeLessThanOrEqual(152);
            const box = figureBox(s, form);
            const { x } = seen(a.tip);
            expect(x > box.x && x < box.x + box.width, s.key).toBe(true);
          }
  });
});

/** In drawing units, of which a person is 132 high: 3 px beside an ask. */
const ALIKE = 3;

describe("stills", () => {
  /** Returns how far the drawn joints of two still poses lie apart, at most. */
  const apart = (a: Pose, b: Pose) =>
    Math.max(
      ...(["right", "left"] as const).flatMap((side) => {
        const [p, q] = [armJoints(side, a[side]), armJoints(side, b[side])];
        return (["elbow", "wrist", "tip"] as const).map((joint) => {
          const [u, v] = [seen(p[joint]), seen(q[joint])];
          return Math.hypot(u.x - v.x, u.y - v.y);
        });
      }),
    );
  const hands = ({ right, left }: Pose) => JSON.stringify([right.hand, left.hand]);

  it("[VIS-22] no two of one giver are the same, so that a stop is told from an emergency stop without motion", () => {
    const alike: string[] = [];
    for (const form of FORMS) {
      const stills = HAND_SIGNALS.flatMap((s) => {
        const shown = keysOf(s, form)[s.still];
        return shown ? [{ s, pose: shown.pose }] : [];
      });
      for (const [i, a] of stills.entries())
        for (const b of stills.slice(i + 1)) {
          if (a.s.giver !== b.s.giver || apart(a.pose, b.pose) >= ALIKE) continue;
          // A wand hides the shape of the hand.
          if (form === "wand" || hands(a.pose) === hands(b.pose))
            alike.push(`${form}: ${a.s.key}, ${b.s.key}`);
        }
    }
    expect(alike).toEqual([]);
  });

  it("[VIS-22] the hands that act are within the picture", () => {
    for (const form of FORMS)
      for (const s of HAND_SIGNALS.filter((h) => keysOf(h, form).length > 0)) {
        const { box } = still(s, form, 150);
        for (const { pose } of keysOf(s, form))
          for (const side of s.acts) {
            const { wrist, along } = armJoints(side, pose[side]);
            const reach = reachOf(form);
            const end = seen({
              x: wrist.x + along.x * reach,
              y: wrist.y + along.y * reach,
              z: wrist.z + along.z * reach,
            });
            const name = `${form} ${s.key} ${side}`;
            expect(end.x, name).toBeGreaterThan(box.x);
            expect(end.x, name).toBeLessThan(box.x + box.width);
            expect(end.y, name).toBeGreaterThan(box.y);
            expect(end.y, name).toBeLessThan(box.y + box.height);
          }
      }
  });
});

describe("engine numbers", () => {
  it("[HSG-5] fingers of one hand, 1 to 5; beyond that no gesture is made up", () => {
    for (let n = 1; n <= 5; n += 1)
      expect(forEngine("readyToStart", n, null)?.day[0]?.pose.right.hand).toEqual({ is: "fingers", n });
    for (let n = 6; n <= 8; n += 1) expect(forEngine("readyToStart", n, null)).toBeNull();
  });

  it("[HSG-5] are pointed at by the left arm, towards the engine as the giver faces the nose (UK SI 2007/3468 r.63(5))", () => {
    // For a giver facing the nose, number 1, port outer, is at the far right: on the reader's left.
    expect(enginesSeen(4, "nose")).toEqual([4, 3, 2, 1]);
    for (const key of ["startEngine", "fire", "cutOneEngineNight"])
      for (const n of [1, 2, 3, 4]) {
        const { side } = engineStands(n, 4);
        const made = forEngine(key, n, side);
        const { tip, shoulder } = armJoints("left", made?.day[0]?.pose.left ?? arm([0, 0], [0, 0]));
        if (n <= 2) expect(tip.x, `${key} ${n}`).toBeLessThan(0);
        else expect(tip.x, `${key} ${n}`).toBeGreaterThan(shoulder.x);
        if (key === "startEngine") expect(tip.y).toBeGreaterThan(100);
      }
    const centre = forEngine("fire", 2, engineStands(2, 3).side);
    const { tip } = armJoints("left", centre?.day[0]?.pose.left ?? arm([0, 0], [0, 0]));
    expect(tip.z).toBeGreaterThan(40);
  });
});

describe("movement", () => {
  it("[HSG-4] a signal made once begins and ends at ease: no showing runs backwards into the opposite signal", () => {
    for (const s of HAND_SIGNALS.filter((h) => h.course === "once")) {
      const keys = showing(s, "day");
      expect(keys).toHaveLength(s.day.length + 1);
      for (const side of s.acts) {
        const rest = armJoints(side, poseAt(keys, 0)[side]);
        expect(rest.wrist.y, s.key).toBeLessThan(BODY.hip);
      }
      expect(poseAt(keys, lasts(keys))).toEqual(poseAt(keys, 0));
    }
  });

  it("[HSG-4] shows each key pose in its time, moves without a jump and goes round", () => {
    for (const s of HAND_SIGNALS) {
      const keys = showing(s, "day");
      const whole = lasts(keys);
      let at = 0;
      keys.forEach((k, i) => {
        if (i > 0) at += k.takes;
        expect(poseAt(keys, at + k.stays / 2).right.shoulder[0], s.key).toBeCloseTo(
          k.pose.right.shoulder[0],
          6,
        );
        at += k.stays;
      });
      // In a hundredth of a second no wrist moves farther than when an arm is thrown up abruptly.
      const steps = Array.from({ length: Math.ceil(whole * 100) }, (_, i) => i / 100);
      for (const side of ["right", "left"] as const) {
        const ways = steps.map((t) => {
          const [p, q] = [poseAt(keys, t), poseAt(keys, t + 0.01)].map((pose) => armJoints(side, pose[side]));
          return p && q ? far(p.wrist, q.wrist) : Number.POSITIVE_INFINITY;
        });
        expect(Math.max(...ways), `${s.key} ${side}`).toBeLessThan(6);
      }
    }
  });

  it("[HSG-4] brakes, chocks and power: the way of the hand tells one from the other", () => {
    const way = (key: string) => {
      const [a, b] = handSignal(key).day;
      if (!a || !b) throw new Error(key);
      const points = handWay(a.pose, b.pose, "right");
      return (points.at(-1)?.x ?? 0) - (points[0]?.x ?? 0);
    };
    for (const [into, out] of [
      ["insertChocks", "removeChocks"],
      ["chocksInserted", "chocksRemoved"],
      ["chocksInsertedOlder", "chocksRemovedOlder"],
    ] as const) {
      expect(way(into), into).toBeGreaterThan(5);
      expect(way(out), out).toBeLessThan(-5);
    }
  });
});

describe("drawings", () => {
  it("[HSG-8] are plain paths without a broken number, still and as a strip of key poses, for every form", () => {
    for (const s of HAND_SIGNALS)
      for (const form of FORMS) {
        const keys = keysOf(s, form);
        if (keys.length === 0) {
          expect(() => still(s, form, 100), s.key).toThrow(RangeError);
          continue;
        }
        const sheet = strip(s, form, 100);
        expect(sheet.starts.length, s.key).toBe(keys.length > 4 ? Math.ceil(keys.length / 2) : keys.length);
        for (const svg of [sheetSvg(sheet), sheetSvg(still(s, form, 100))]) {
          expect(svg, s.key).not.toMatch(/NaN|undefined|Infinity/);
          expect(svg.match(/<path /g)?.length, s.key).toBeGreaterThan(14);
          expect(svg).not.toMatch(/<script|style=|onload/);
        }
      }
  });

  it("[HSG-8] put the acting arms in ink and the rest behind them in a softer line", () => {
    const { marks } = still(handSignal("negative"), "day", 100);
    const sleeves = marks.filter((m) => m.d.split("L").length === 3 && m.width > 5).map((m) => m.stroke);
    expect(sleeves).toContain("ink");
    expect(sleeves).toContain("soft");
  });
});

describe("the quiz", () => {
  it("[HSG-9] asks the same for the same round, another for another, each figure once and its name among four", () => {
    expect(quiz(7, 10)).toEqual(quiz(7, 10));
    expect(quiz(7, 10)).not.toEqual(quiz(8, 10));
    for (let round = 0; round < 40; round += 1) {
      const all = quiz(round, 10);
      expect(new Set(all.map((q) => q.key)).size).toBe(10);
      for (const q of all) {
        expect(new Set(q.options).size).toBe(4);
        expect(q.options).toContain(q.key);
        if (q.form === "wand") expect(handSignal(q.key).wand).not.toBeNull();
        const alike = LOOK_ALIKES.find((l) => l.keys.includes(q.key));
        if (alike) expect(alike.keys.every((k) => q.options.includes(k))).toBe(true);
      }
    }
    // The answer appears in every place, so that nobody learns the place instead of the figure.
    const places = Array.from({ length: 40 }, (_, r) =>
      quiz(r, 10).map((q) => q.options.indexOf(q.key)),
    ).flat();
    expect([0, 1, 2, 3].map((p) => places.filter((q) => q === p).length > 60)).toEqual([
      true,
      true,
      true,
      true,
    ]);
  });
});
