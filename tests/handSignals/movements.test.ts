import { describe, expect, it } from "vitest";
import { handSignal } from "../../shared/handSignals/all.ts";
import { BODY } from "../../shared/handSignals/body.ts";
import { lasts } from "../../shared/handSignals/motion.ts";
import { apart, atSide, CHIN, crossed, HEAD_TOP, level, made, SHOULDER, WAIST } from "./seen.ts";

describe("[HSG-3] pilot to marshaller (UK SI 2007/3468 Sch 8 r.63 Table 6, wording read)", () => {
  it("[HSG-3] brakes engaged: fingers extended level in front of the face, then clenched; released the other way", () => {
    const { first, last } = made("brakesEngaged");
    for (const s of [first, last]) {
      expect(Math.abs(s.right.along.y)).toBeLessThan(0.15);
      expect(s.right.wrist.y).toBeGreaterThan(CHIN);
      expect(s.right.tip.y).toBeLessThan(HEAD_TOP);
      expect(s.right.tip.z).toBeGreaterThan(5);
      expect(Math.abs((s.right.wrist.x + s.right.tip.x) / 2)).toBeLessThan(8);
    }
    expect([first.right.arm.hand.is, last.right.arm.hand.is]).toEqual(["flat", "fist"]);
    const released = made("brakesReleased");
    expect([released.first.right.arm.hand.is, released.last.right.arm.hand.is]).toEqual(["fist", "flat"]);
  });

  it("[HSG-3] insert chocks: palms outwards, hands moved inwards to cross before the face; remove: outwards from crossed", () => {
    const insert = made("insertChocks");
    const remove = made("removeChocks");
    expect(crossed(insert.first)).toBe(false);
    expect(crossed(insert.last)).toBe(true);
    expect(crossed(remove.first)).toBe(true);
    expect(crossed(remove.last)).toBe(false);
    expect(apart(insert.first)).toBeGreaterThan(apart(insert.last) + 40);
    expect(apart(remove.last)).toBeGreaterThan(apart(remove.first) + 40);
    for (const s of [...insert.all, ...remove.all])
      for (const a of [s.right, s.left]) {
        expect(a.arm.palm).toBe("reader");
        expect(a.wrist.y).toBeGreaterThan(CHIN);
        expect(a.wrist.y).toBeLessThan(HEAD_TOP);
        expect(a.wrist.z).toBeGreaterThan(8);
      }
  });

  it("[HSG-3] ready to start: one hand raised, fingers up, palm to the reader", () => {
    const { all, first } = made("readyToStart");
    expect(all).toHaveLength(1);
    expect(first.right.along.y).toBeGreaterThan(0.95);
    expect(first.right.tip.y).toBeGreaterThan(SHOULDER);
    expect(first.right.arm.palm).toBe("reader");
    expect(first.right.arm.hand.is).toBe("fingers");
  });
});

describe("[HSG-3] marshaller to pilot (ICAO Annex 2 App 1, 5.1; wording second-hand or from memory)", () => {
  it("[HSG-3] start engine: the right hand circles at head height, the left arm above the head points", () => {
    const { all } = made("startEngine");
    for (const s of all) {
      expect(s.right.wrist.y).toBeGreaterThan(CHIN - 6);
      expect(s.right.wrist.y).toBeLessThan(HEAD_TOP + 2);
      expect(s.left.wrist.y).toBeGreaterThan(HEAD_TOP);
      expect(s.left.arm.hand.is).toBe("point");
    }
    // Once round in the horizontal plane: the turns between places all have the same sign.
    const xz = all.map((s) => s.right.tip);
    const c = {
      x: xz.reduce((t, p) => t + p.x, 0) / xz.length,
      z: xz.reduce((t, p) => t + p.z, 0) / xz.length,
    };
    const turns = xz.map((p, i) => {
      const q = xz[(i + 1) % xz.length] ?? p;
      return Math.sign((p.x - c.x) * (q.z - c.z) - (p.z - c.z) * (q.x - c.x));
    });
    expect(new Set(turns).size).toBe(1);
    expect(Math.max(...xz.map((p) => p.x)) - Math.min(...xz.map((p) => p.x))).toBeGreaterThan(8);
    expect(handSignal("startEngine").course).toBe("again");
  });

  it("[HSG-3] cut engines: arm forward at shoulder height, hand to the left shoulder, across the throat to the right", () => {
    const [forward, left, throat, right] = made("cutEngines").all;
    expect(forward?.right.wrist.z).toBeGreaterThan(28);
    expect(Math.abs((forward?.right.wrist.y ?? 0) - SHOULDER)).toBeLessThan(6);
    expect(left?.right.tip.x).toBeGreaterThan(8);
    expect(throat?.right.tip.y).toBeLessThan(CHIN + 3);
    expect(throat?.right.tip.y).toBeGreaterThan(SHOULDER - 1);
    expect(Math.abs(throat?.right.tip.x ?? 99)).toBeLessThan(8);
    expect(right?.right.wrist.x).toBeLessThan(-12);
    const xs = [left, throat, right].map((s) => s?.right.tip.x ?? 0);
    expect(xs).toEqual([...xs].sort((a, b) => b - a));
  });

  it("[HSG-3] stop: from level at the sides slowly up to cross overhead; emergency stop: abruptly", () => {
    const stop = made("normalStop");
    const emergency = made("emergencyStop");
    expect(level(stop.first.right) && level(stop.first.left)).toBe(true);
    for (const s of [stop.last, emergency.last]) {
      expect(crossed(s)).toBe(true);
      for (const a of [s.right, s.left]) expect(a.wrist.y).toBeGreaterThan(HEAD_TOP + 5);
    }
    const rise = (key: string) =>
      handSignal(key)
        .day.slice(1)
        .reduce((sum, k) => sum + k.takes, 0);
    expect(rise("normalStop")).toBeGreaterThan(5 * rise("emergencyStop"));
    for (const key of ["normalStop", "emergencyStop"]) {
      const { right, left } = made(key, "wand").last;
      // The tips of the wands are beyond the middle: they cross although the hands need not.
      expect(right.wrist.x + right.along.x * (4 + BODY.wand)).toBeGreaterThan(0);
      expect(left.wrist.x + left.along.x * (4 + BODY.wand)).toBeLessThan(0);
    }
  });

  it("[HSG-3] hold: both arms straight, 45° down, still", () => {
    const { all, first } = made("holdStandBy");
    expect(all).toHaveLength(1);
    expect(handSignal("holdStandBy").course).toBe("held");
    for (const a of [first.right, first.left]) {
      expect(a.arm.elbow[0]).toBe(0);
      const down = Math.atan2(a.shoulder.y - a.tip.y, Math.abs(a.tip.x - a.shoulder.x)) * (180 / Math.PI);
      expect(down).toBeCloseTo(45, 6);
    }
  });

  it("[HSG-3] all clear: right hand at head height, thumb up; negative: right arm level, thumb down; the left at the side", () => {
    const yes = made("allClear").first;
    const no = made("negative").first;
    expect(yes.right.wrist.y).toBeGreaterThan(CHIN - 1);
    expect(yes.right.wrist.y).toBeLessThan(HEAD_TOP);
    expect(yes.right.arm.hand.is).toBe("thumbUp");
    expect(level(no.right)).toBe(true);
    expect(no.right.tip.x).toBeLessThan(-50);
    expect(no.right.arm.hand.is).toBe("thumbDown");
    for (const s of [yes, no]) expect(atSide(s.left)).toBe(true);
    expect(made("allClear", "wand").first.right.along.y).toBeGreaterThan(0.99);
    expect(made("negative", "wand").first.right.along.y).toBeLessThan(-0.99);
  });

  it("[HSG-3] fire: the right hand fans from shoulder to knee while the left points", () => {
    const { first, last } = made("fire");
    expect(Math.abs(first.right.wrist.y - SHOULDER)).toBeLessThan(6);
    expect(last.right.tip.y).toBeLessThan(BODY.hip - 8);
    for (const s of [first, last]) expect(s.left.arm.hand.is).toBe("point");
    expect(lasts(handSignal("fire").day)).toBeLessThan(1);
    const eight = made("fireFigureOfEight").all;
    for (const s of eight) expect(Math.abs(s.right.wrist.y - WAIST)).toBeLessThan(8);
  });

  it("[HSG-3] path clear: right hand above the head, pointing up; left, pointing down, in towards the body", () => {
    const { first, last } = made("pathClear");
    for (const s of [first, last]) {
      expect(s.right.tip.y).toBeGreaterThan(HEAD_TOP + 15);
      expect(s.right.along.y).toBeGreaterThan(0.95);
      expect(s.left.along.y).toBeLessThan(-0.9);
    }
    expect(last.left.tip.x).toBeLessThan(first.left.tip.x - 10);
  });

  it("[HSG-3] slow engines: one hand up and down, palm down, the other still; dispatch: right hand to the brow", () => {
    const { first, last } = made("slowEngines");
    expect(last.right.wrist.y - first.right.wrist.y).toBeGreaterThan(5);
    expect(last.left.wrist).toEqual(first.left.wrist);
    for (const s of [first, last])
      expect([s.right.arm.palm, s.right.tip.y < SHOULDER]).toEqual(["down", true]);
    const salute = made("dispatch").first.right;
    expect(Math.hypot(salute.tip.x, salute.tip.y - BODY.eyes)).toBeLessThan(9);
  });

  it("[HSG-3] this stand: both arms straight up; do not touch: right fist straight up, by night the wand level", () => {
    const { right, left } = made("identifyGate").first;
    for (const a of [right, left]) expect(a.along.y).toBeGreaterThan(0.99);
    const fist = made("doNotTouchControls").first;
    expect(fist.right.arm.hand.is).toBe("fist");
    expect(fist.right.wrist.y).toBeGreaterThan(HEAD_TOP + 10);
    expect(atSide(fist.left)).toBe(true);
    expect(Math.abs(made("doNotTouchControls", "wand").first.right.along.y)).toBeLessThan(0.1);
  });

  it("[HSG-3] set brakes: open palm just above the shoulder, closed; release: fist, opened", () => {
    const set = made("setBrakes");
    const release = made("releaseBrakes");
    expect(set.all.map((s) => s.right.arm.hand.is)).toEqual(["open", "fist"]);
    expect(release.all.map((s) => s.right.arm.hand.is)).toEqual(["fist", "open"]);
    for (const s of [...set.all, ...release.all]) {
      expect(s.right.wrist.y).toBeGreaterThan(SHOULDER);
      expect(s.right.wrist.y).toBeLessThan(SHOULDER + 6);
      expect(s.right.arm.palm).toBe("reader");
    }
  });

  it("[HSG-3] chocks inserted: overhead, inwards until they touch; removed: outwards; older forms with the arms down", () => {
    for (const form of ["day", "wand"] as const) {
      const reach = form === "wand" ? 4 + BODY.wand : BODY.hand;
      const gap = (s: ReturnType<typeof made>["last"]) =>
        s.left.wrist.x + s.left.along.x * reach - (s.right.wrist.x + s.right.along.x * reach);
      const into = made("chocksInserted", form);
      const out = made("chocksRemoved", form);
      expect(Math.abs(gap(into.last)), form).toBeLessThan(3);
      expect(gap(into.first), form).toBeGreaterThan(12);
      expect(gap(out.last), form).toBeGreaterThan(gap(out.first) + 15);
      for (const s of [...into.all, ...out.all])
        for (const a of [s.right, s.left]) expect(a.wrist.y, form).toBeGreaterThan(HEAD_TOP);
      expect(into.last.right.along.x, form).toBeGreaterThan(0.9);
      expect(out.last.right.along.x, form).toBeLessThan(-0.9);
    }
    const into = made("chocksInsertedOlder");
    const out = made("chocksRemovedOlder");
    expect(apart(into.last)).toBeLessThan(apart(into.first) - 20);
    expect(apart(out.last)).toBeGreaterThan(apart(out.first) + 20);
    for (const s of [...into.all, ...out.all]) expect(s.right.wrist.y).toBeLessThan(WAIST);
    expect([into.last.right.arm.palm, out.last.right.arm.palm]).toEqual(["in", "out"]);
  });
});

describe("[HSG-3] servicing (ICAO Annex 2 App 1, 5.3; from memory)", () => {
  it("[HSG-3] connect power: right fingertips come up to the level left palm overhead; disconnect: they go away", () => {
    for (const form of ["day", "wand"] as const) {
      const reach = form === "wand" ? 4 + BODY.wand : BODY.hand;
      const under = (s: ReturnType<typeof made>["last"]) =>
        s.left.wrist.y - (s.right.wrist.y + s.right.along.y * reach);
      const on = made("connectPower", form);
      const off = made("disconnectPower", form);
      for (const s of [on.last, off.first]) {
        expect(Math.abs(s.left.along.y), form).toBeLessThan(0.1);
        expect(s.left.wrist.y, form).toBeGreaterThan(HEAD_TOP + 8);
        expect(s.right.along.y, form).toBeGreaterThan(0.95);
        expect(Math.abs(under(s)), form).toBeLessThan(3);
        expect(Math.abs(s.right.wrist.x), form).toBeLessThan(3);
      }
      expect(under(on.first), form).toBeGreaterThan(6);
      expect(off.last.right.wrist.x, form).toBeLessThan(-15);
    }
  });

  it("[HSG-3] interphone: from level at the sides the hands come to the ears; stairs: right hand to the left shoulder", () => {
    const { first, last } = made("interphone");
    expect(level(first.right) && level(first.left)).toBe(true);
    for (const a of [last.right, last.left]) {
      expect(Math.abs(a.tip.y - BODY.eyes)).toBeLessThan(10);
      expect(Math.abs(a.tip.x)).toBeLessThan(12);
    }
    const stairs = made("stairs");
    expect(atSide(stairs.first.right)).toBe(true);
    expect(stairs.last.right.tip.x).toBeGreaterThan(5);
    for (const s of stairs.all) expect(s.left.arm.shoulder[0]).toBe(135);
  });
});

describe("[HSG-3] fire crew to flight crew (FAA AIM 6-5-3, wording read)", () => {
  it("[HSG-3] evacuation: hand raised at eye height beckons backwards, the other arm against the body", () => {
    const { first, last } = made("recommendEvacuation");
    for (const s of [first, last]) {
      expect(Math.abs(s.right.elbow.y - SHOULDER)).toBeLessThan(4);
      expect(s.right.wrist.y).toBeGreaterThan(CHIN);
      expect(Math.abs(s.left.wrist.x)).toBeLessThan(12);
    }
    expect(last.right.wrist.z).toBeLessThan(first.right.wrist.z);
    expect(handSignal("recommendEvacuation").course).toBe("again");
  });

  it("[HSG-3] stop: crossed at the wrists before the head, not above it; contained: from 45° in below the waist and out", () => {
    const stop = made("recommendStop").first;
    expect(crossed(stop)).toBe(true);
    for (const a of [stop.right, stop.left]) {
      expect(a.wrist.y).toBeGreaterThan(CHIN);
      expect(a.wrist.y).toBeLessThan(HEAD_TOP);
      expect(a.wrist.z).toBeGreaterThan(8);
    }
    const { first, last } = made("emergencyContained");
    expect([first.right.arm.shoulder, first.left.arm.shoulder]).toEqual([
      [45, 0],
      [45, 0],
    ]);
    expect(crossed(last)).toBe(true);
    for (const a of [last.right, last.left]) expect(a.wrist.y).toBeLessThan(WAIST);
    expect(handSignal("emergencyContained").course).toBe("again");
  });
});
