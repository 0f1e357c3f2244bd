import { act, type Step, tellSupervised, tick, voidPermissions } from "../../shared/session/step.ts";
import { chart, type Taken } from "./chart.ts";
import { countAlerts, fingerprint, print, setBase } from "./fingerprint.ts";
import { CARD } from "./invariants/card.ts";
import { CLEARANCE } from "./invariants/clearance.ts";
import type { Transition } from "./invariants/invariant.ts";
import { RECORD } from "./invariants/record.ts";
import { REPORTS } from "./invariants/reports.ts";
import { SERVICES } from "./invariants/services.ts";
import { STOPPING } from "./invariants/stopping.ts";
import { STOPS } from "./invariants/stops.ts";
import { WARMTH } from "./invariants/warmth.ts";
import { CARDED, START, TYPE, WARMED } from "./model.ts";
import { type Move, Moves, type Node } from "./moves.ts";
import { MARK, type Root, stateAt } from "./roots.ts";
import { scopeNamed, within } from "./scopes.ts";
import { Seen } from "./seen.ts";

export const INVARIANTS = [
  ...CLEARANCE,
  ...CARD,
  ...STOPS,
  ...REPORTS,
  ...SERVICES,
  ...STOPPING,
  ...WARMTH,
  ...RECORD,
];

export interface Options {
  /** Name of a scope; see `scopes.ts`. */
  scope: string;
  /** Roots to begin from instead of the scope's own. */
  roots?: readonly Root[];
  /** Most states. */
  states: number;
  /** Called from time to time; the search ends when it returns true. */
  enough?: (found: Found) => boolean;
}

/** The extent of a search. */
export interface Found {
  scope: string;
  states: number;
  transitions: number;
  refused: number;
  /**
   * Number of steps from the root within which every state was found. If the frontier is not empty, one more step was
   * begun.
   */
  depth: number;
  /** True when every state within the scope's bounds was reached and left by every move. */
  exhausted: boolean;
  /** Successors that were not followed because more was open than the scope allows. */
  beyond: number;
  /** Memory of the tables. */
  bytes: number;
  violation: Violation | null;
}

/** A broken invariant and the shortest way to it. */
export interface Violation {
  invariant: string;
  text: string;
  root: Root;
  moves: Move[];
  chart: string;
}

const THROWN = { id: "S0", text: "the core never throws: what follows from an event always settles" };
const MOVE_BITS = 12;

/**
 * Searches breadth first from the roots over every move of the scope, and checks each invariant on every step. States
 * are kept as fingerprints, with the number of their predecessor and of the move. When the turn of a state comes, it is
 * made again: the moves that led to it are repeated from the nearest state still in memory.
 */
export function search(options: Options): Found {
  return new Search(options).run();
}

class Search {
  private readonly options: Options;
  private readonly moves: Moves;
  private readonly most;
  private readonly seen = new Seen();
  private readonly roots: { root: Root; node: Node }[];
  private readonly parent: Uint32Array;
  private readonly by: Uint16Array;
  private readonly found: Found;
  /** The states on the way from a root to the state made last, with their numbers. */
  private path: { at: number; node: Node; moves: Move[] }[] = [];

  constructor(options: Options) {
    const scope = scopeNamed(options.scope);
    this.options = options;
    this.moves = new Moves(scope);
    this.most = scope.most;
    countAlerts(scope.alerts);
    this.roots = (options.roots ?? scope.roots).map((root) => ({
      root,
      node: { state: stateAt(root, scope.card ? CARDED : scope.warms ? WARMED : TYPE), now: START },
    }));
    this.parent = new Uint32Array(options.states);
    this.by = new Uint16Array(options.states);
    this.found = {
      scope: scope.name,
      states: 0,
      transitions: 0,
      refused: 0,
      depth: 0,
      exhausted: false,
      beyond: 0,
      bytes: 0,
      violation: null,
    };
  }

  run(): Found {
    const { found, options } = this;
    this.roots.forEach(({ node }, i) => {
      fingerprint(node.state, node.now);
      this.seen.add(print.low, print.high);
      this.parent[found.states] = i;
      found.states += 1;
    });
    let levelEnd = found.states;
    let at = 0;
    for (; at < found.states; at += 1) {
      if (at === levelEnd) {
        found.depth += 1;
        levelEnd = found.states;
      }
      if (at % 256 === 0 && options.enough?.(found)) break;
      if (!this.expand(at)) break;
    }
    found.exhausted = at === found.states;
    found.bytes = this.seen.bytes + this.parent.byteLength + this.by.byteLength;
    return found;
  }

  /**
   * Takes every move from one state. Returns false when the search must end: a violation, or no room for more states.
   */
  private expand(at: number): boolean {
    const { found, seen } = this;
    const { node, moves } = this.made(at);
    setBase(node.state, node.now);
    if (moves.length >= 2 ** MOVE_BITS) throw new Error(`${moves.length} moves from one state`);
    for (let i = 0; i < moves.length; i += 1) {
      const move = moves[i] as Move;
      const next = this.take(node, move, at);
      if (!next) return false;
      found.transitions += 1;
      const { step, now } = next;
      const state = step ? step.state : node.state;
      if (step?.refusal && step.events.length === 1 && state.epoch === node.state.epoch) {
        found.refused += 1;
        continue;
      }
      if (state === node.state && now === node.now) continue;
      if (!within(state, this.most)) {
        found.beyond += 1;
        continue;
      }
      fingerprint(state, now);
      if (!seen.add(print.low, print.high)) continue;
      if (found.states === this.options.states) return false;
      this.parent[found.states] = at;
      this.by[found.states] = i;
      found.states += 1;
    }
    return true;
  }

  /** Takes one move and checks its invariants; returns null when one is broken, which is then recorded. */
  private take(node: Node, move: Move, at: number): { step: Step | null; now: number } | null {
    let step: Step | null;
    const now = timeOf(node, move);
    try {
      step = apply(node, move, now);
    } catch {
      this.violated(THROWN, at, move, null);
      return null;
    }
    if (!step) return { step, now };
    const transition: Transition = { before: node.state, move, step, now };
    for (const invariant of INVARIANTS) {
      if (invariant.holds(transition)) continue;
      this.violated(invariant, at, move, step);
      return null;
    }
    return { step, now };
  }

  private violated(broken: { id: string; text: string }, at: number, move: Move, step: Step | null) {
    const chain = this.chainTo(at);
    const root = this.rootOf(chain);
    const taken: Taken[] = [];
    let node = root.node;
    for (const number of chain.slice(1)) {
      const way = this.moves.of(node)[this.by[number] as number] as Move;
      const now = timeOf(node, way);
      const made = apply(node, way, now);
      taken.push({ move: way, now, step: made });
      node = { state: made ? made.state : node.state, now };
    }
    taken.push({ move, now: timeOf(node, move), step });
    this.found.violation = {
      invariant: broken.id,
      text: broken.text,
      root: root.root,
      moves: taken.map((t) => t.move),
      chart: chart(root.root, root.node.state, taken, broken),
    };
  }

  /** Returns the numbers of the states from a root to one state, the root first. */
  private chainTo(at: number): number[] {
    const chain: number[] = [at];
    for (let n = at; n >= this.roots.length; ) {
      n = this.parent[n] as number;
      chain.push(n);
    }
    return chain.reverse();
  }

  private rootOf(chain: readonly number[]) {
    const root = this.roots[chain[0] ?? 0];
    if (!root) throw new Error("a chain begins at a root");
    return root;
  }

  /**
   * Makes a state again. In a breadth-first search the way to a state is nearly the same as to the one before, so few
   * moves are repeated.
   */
  private made(at: number): { node: Node; moves: Move[] } {
    const chain = this.chainTo(at);
    let kept = 0;
    while (kept < chain.length && this.path[kept]?.at === chain[kept]) kept += 1;
    this.path.length = kept;
    for (const number of chain.slice(kept)) {
      const from = this.path.at(-1);
      const node = from
        ? after(from.node, from.moves[this.by[number] as number] as Move)
        : this.rootOf(chain).node;
      this.path.push({ at: number, node, moves: this.moves.of(node) });
    }
    const last = this.path.at(-1);
    if (!last) throw new Error("a chain has at least its root");
    return last;
  }
}

function after(node: Node, move: Move): Node {
  const now = timeOf(node, move);
  const step = apply(node, move, now);
  return { state: step ? step.state : node.state, now };
}

function timeOf(node: Node, move: Move): number {
  if (move.is === "wait") return move.to;
  return move.is === "clock" || move.is === "slip" ? node.now + move.by : node.now;
}

/** Returns the core's step for a move; null when time passes and the server has not looked. */
function apply({ state }: Node, move: Move, now: number): Step | null {
  switch (move.is) {
    case "act": {
      const mark = move.validUntil === undefined ? MARK : { ...MARK, validUntil: move.validUntil };
      return act(state, move.action, move.by, mark, now);
    }
    case "tick":
      return tick(state, now);
    case "also":
      return tellSupervised(state, move.aircraft, now);
    case "restart":
      return voidPermissions(state, { type: "restarted" }, now);
    case "clock":
      return voidPermissions(state, { type: "clockStepped", by: move.by }, now);
    case "wait":
    case "slip":
      return null;
  }
}
