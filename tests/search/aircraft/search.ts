import { canonical } from "../../../shared/evidence/canonical.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { lifeOf } from "../invariants/invariant.ts";
import { STANDING } from "../invariants/standing.ts";
import type { Move } from "./move.ts";
import { movesOf, take } from "./moves.ts";
import { type Ramp, type Root, rampAt } from "./ramp.ts";

export interface AircraftFound {
  states: number;
  steps: number;
  /** True when every state was reached and left by every move. */
  exhausted: boolean;
  violation: { invariant: string; text: string; way: string[] } | null;
}

/** Breadth first over the moves at one aircraft with two open sessions at most; each step is held to the invariants. */
export function searchAircraft({ root, states }: { root: Root; states: number }): AircraftFound {
  const nodes: { ramp: Ramp; from: number; by: Move | null }[] = [{ ramp: rampAt(root), from: -1, by: null }];
  const seen = new Set([printOf(nodes[0]?.ramp as Ramp)]);
  const found: AircraftFound = { states: 1, steps: 0, exhausted: true, violation: null };
  for (let at = 0; at < nodes.length; at += 1) {
    const node = nodes[at];
    if (!node) break;
    for (const move of movesOf(node.ramp)) {
      const after = take(node.ramp, move);
      if (!after) continue;
      found.steps += 1;
      const broken = STANDING.find((i) => !i.holds({ before: node.ramp, move, after }));
      if (broken) {
        const way = [...wayTo(nodes, at), JSON.stringify(move)];
        return { ...found, exhausted: false, violation: { invariant: broken.id, text: broken.text, way } };
      }
      const print = printOf(after.ramp);
      if (seen.has(print)) continue;
      if (nodes.length === states) return { ...found, exhausted: false };
      seen.add(print);
      nodes.push({ ramp: after.ramp, from: at, by: move });
      found.states += 1;
    }
  }
  return found;
}

function wayTo(nodes: readonly { from: number; by: Move | null }[], at: number): string[] {
  const way: string[] = [];
  for (let n = at; n >= 0; n = nodes[n]?.from ?? -1) {
    const by = nodes[n]?.by;
    if (by) way.unshift(JSON.stringify(by));
  }
  return way;
}

/** The part of an aircraft that can still decide anything, without event numbers and times. */
function printOf({ record, sessions, pending, seenStill }: Ramp): string {
  const place = new Map(sessions.map((s, i) => [s.id, i]));
  const items = record.items.map(({ session, item }) => [
    session === null ? null : place.get(session),
    item.is,
    "engine" in item ? item.engine : null,
    "person" in item ? item.person : null,
  ]);
  const ended = record.endedElsewhere.map((e) => [place.get(e.session), e.item.is]);
  return canonical({ items, ended, sessions: sessions.map(sessionPrint), pending, seenStill });
}

function sessionPrint(s: SessionState) {
  const foreign = (id: number) => id >= 1_000_000_000;
  return {
    stage: s.stage,
    lives: s.engines.map((e) => [e.life.is, lifeOf(e).is]),
    read: s.engines.map((e) => (e.life.is === "clear" ? e.life.clearance.readBackAt !== null : null)),
    holds: s.holds.map((h) => [foreign(h.id), h.person]),
    cuts: s.cuts.map((c) => [foreign(c.id), c.engine, c.doneAt !== null]),
    fires: s.fires.map((f) => [foreign(f.id), f.engine, f.outBy?.person ?? null]),
    hands: [s.handling?.engine ?? null, (s.standing?.hands ?? []).map((h) => h.engine)],
    turning: (s.standing?.turning ?? []).map((t) => t.engine),
    reports: [s.guard?.engine ?? null, Object.keys(s.arcs), s.brakes !== null, s.chocks?.in ?? null],
    open: s.signals.map((x) => [x.kind, x.due]),
    unseen: s.engines.filter((e) => e.unseen !== undefined).map((e) => e.n),
    returning: s.returning ? [s.returning.switchesOff !== null, s.returning.remarksDue] : null,
    told: (s.standing?.told ?? []).map((i) => i.item.is),
    endedHere: (s.standing?.endedHere ?? []).length,
  };
}
