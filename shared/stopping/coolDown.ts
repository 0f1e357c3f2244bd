import { type Engine, plain } from "../engine/life.ts";
import type { CoolDownShort } from "../protocol/coolDown.ts";
import type { FactOf } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";

/** Readings of a cool-down's gauge to keep, from which its time left is worked out. */
const KEPT_AT_IDLE = 60;

/** Returns how many readings of a gauge are kept for a cool-down; 0 in a start, and where the type gives it no figure. */
export function keptAtIdle({ type, returning }: SessionState, gauge: string): number {
  const asked = type.stopping?.coolDown?.gauges.some((g) => g.gauge === gauge) ?? false;
  return returning && asked ? KEPT_AT_IDLE : 0;
}

/**
 * Returns what is short of an engine's cool-down at a moment: the time at idle, and each gauge whose figure is too high
 * or was not read at idle. Empty when it may be stopped, and with a type that gives no cool-down. The later of time and
 * figures governs.
 */
export function coolDownShort(
  { type, returning }: SessionState,
  engine: Engine,
  now: number,
): CoolDownShort[] {
  const rule = type.stopping?.coolDown;
  if (!returning || !rule || plain(engine.life).is !== "stable") return [];
  const since = returning.coolingSince;
  const idled = since === null ? 0 : (now - since) / 1000;
  const time: CoolDownShort[] =
    rule.atIdle === undefined || (since !== null && idled >= rule.atIdle.value)
      ? []
      : [{ is: "time", allowed: rule.atIdle.value, found: idled, unit: "s" }];
  const gauges = rule.gauges.flatMap(({ gauge, atMost }): CoolDownShort[] => {
    const read = engine.readings[gauge];
    const atIdle = read && since !== null && read.at >= since ? read.value : null;
    if (atIdle !== null && atIdle <= atMost.value) return [];
    return [{ is: "gauge", gauge, allowed: atMost.value, found: atIdle, unit: atMost.unit }];
  });
  return [...time, ...gauges];
}

/** Returns the server milliseconds at which the time at idle is over; null where there is none, or it has not begun. */
export function idleUntil({ type, returning }: SessionState): number | null {
  const idle = type.stopping?.coolDown?.atIdle;
  const since = returning?.coolingSince ?? null;
  return idle === undefined || since === null ? null : since + idle.value * 1000;
}

/** Returns the fact that an engine stopped now had not cooled down; none where it had. */
export function coolDownCut(state: SessionState, engine: Engine, now: number): FactOf<"coolDownCut">[] {
  const short = coolDownShort(state, engine, now);
  return short.length === 0 ? [] : [{ type: "coolDownCut", engine: engine.n, short }];
}
