import { ALERTS } from "../../shared/alerts/kinds.ts";
import { needsPerson } from "../../shared/alerts/machine.ts";
import type { Ask } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { silence, silenceLimits } from "../../shared/posts/presence.ts";
import type { AlertKind } from "../../shared/protocol/alerts.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { TONE_ORDER, type Tone } from "./tones.ts";

/** A tone to play for something a person at this post has not acknowledged. */
export interface Sounding {
  /**
   * Changes when the tone must play anew: the alert was raised again, sounded again by the record, or a reminder is
   * due.
   */
  key: string;
  tone: Tone;
  /** Interval at which the tone repeats, milliseconds; null to play once. */
  everyMs: number | null;
}

/** Our own judgement: an emergency keeps sounding, and a silent person is called until a touch or a hold. */
const EMERGENCY_MS = 3_000;
const PRESENCE_MS = 5_000;

/** Returns every tone that applies to this post now. Routine messages between others have none. */
export function soundingFor(state: SessionState, post: Post, now: number): Sounding[] {
  const alerts = state.alerts.flatMap((a): Sounding[] => {
    const { priority } = ALERTS[a.kind];
    if (priority === "caution" || !needsPerson(a.posts[post] ?? "normal")) return [];
    const everyMs = priority === "emergency" ? EMERGENCY_MS : null;
    return [{ key: `alert:${a.id}:${a.at}:${a.againAt}`, tone: priority, everyMs }];
  });
  const asks = askedOf(state, post, now).flatMap((a) => soundingAsk(state, a, post, now));
  return [...alerts, ...asks];
}

function soundingAsk(state: SessionState, ask: Ask, post: Post, now: number): Sounding[] {
  // A stop's signal sounds as the alert it raised.
  if (ask.key.startsWith("alert:") || ask.weight === 0) return [];
  if (ask.key === "present") {
    const heard = (silence(state, post, now) ?? 0) >= silenceLimits(state, post).called;
    return heard ? [{ key: "present", tone: "warning", everyMs: PRESENCE_MS }] : [];
  }
  if (ask.signal === null && ask.weight > 2) return [];
  const late = state.signals.find((s) => s.id === ask.signal)?.late ?? 0;
  return [{ key: `${ask.key}:${late}`, tone: "asked", everyMs: null }];
}

/** Panel time at which each tone was last played on this device, milliseconds, by key. */
export type Heard = ReadonlyMap<string, number>;

/** Returns the one tone to play now, the most urgent of those due, and the updated times. */
export function nextTone(
  heard: Heard,
  sounding: readonly Sounding[],
  now: number,
): { tone: Tone | null; heard: Heard } {
  const due = sounding.filter((s) => {
    const last = heard.get(s.key);
    return last === undefined || (s.everyMs !== null && now - last >= s.everyMs);
  });
  const tone = TONE_ORDER.find((t) => due.some((s) => s.tone === t)) ?? null;
  const next = sounding.map((s): [string, number] => [
    s.key,
    due.includes(s) ? now : (heard.get(s.key) ?? now),
  ]);
  return { tone, heard: new Map(next) };
}

const FLASHES: readonly AlertKind[] = ["hold", "cut", "fire", "turningUncleared"];

/**
 * True when the whole screen must flash for an unacknowledged stop. The fire guard looks at an engine, not at a
 * panel.
 */
export function flashes(state: SessionState, post: Post | null): boolean {
  return (
    post === "fireGuard" &&
    state.alerts.some((a) => FLASHES.includes(a.kind) && needsPerson(a.posts.fireGuard ?? "normal"))
  );
}
