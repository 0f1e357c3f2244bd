import type { Action } from "../../shared/protocol/commands.ts";
import { CART, type Moment } from "./moments.ts";

/** One command that the driver is to send. */
export interface Due {
  /** Milliseconds after the beginning. */
  at: number;
  /** Place of its session in the plan's list. */
  session: number;
  panel: number;
  action: Action;
  /** The verdict that is expected. */
  accepted: boolean;
}

/** The same cheap command at a constant rate, from the first panel of each session in turn. */
export function steady(sessions: number, rate: number, seconds: number): Due[] {
  const action: Action = { type: "send", kind: "negative", channel: "panel", note: "load" };
  return Array.from({ length: Math.round(rate * seconds) }, (_, i) => ({
    at: (i * 1_000) / rate,
    session: i % sessions,
    panel: 0,
    action,
    accepted: true,
  }));
}

/** Multiples of it fill an interval evenly, however many they are, and no two meet (the golden ratio's fraction). */
const APART = (Math.sqrt(5) - 1) / 2;

/**
 * A recorded start in every session. Their beginnings are spread evenly over this many milliseconds. Partners look at
 * fixed intervals, so that beginnings which are multiples of an interval would send the commands of all in bursts.
 */
export function starts(moments: readonly Moment[], sessions: number, spreadMs: number): Due[] {
  const dues: Due[] = [];
  for (let session = 0; session < sessions; session += 1) {
    const begins = spreadMs * ((session * APART) % 1);
    for (const { at, panel, action, accepted } of moments)
      dues.push({ at: begins + at, session, panel, action: ofSession(action, session), accepted });
  }
  return dues.sort((a, b) => a.at - b.at);
}

/** Each session has a cart of its own. */
const ofSession = (action: Action, session: number): Action =>
  JSON.parse(JSON.stringify(action).replaceAll(CART, `Cart ${session}`));
