import { plain } from "../engine/life.ts";
import { chance } from "../partners/chance.ts";
import { type Move, playPost } from "../partners/play.ts";
import type { Script } from "../partners/script.ts";
import type { World } from "../partners/world.ts";
import type { Action } from "../protocol/commands.ts";
import type { Post } from "../protocol/posts.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import { gaugeShows } from "../simulation/gauges.ts";
import { FAULT } from "./faults.ts";
import { going, type Run } from "./run.ts";

/** Seconds after which a partner who sees a fault says so, from and to. */
const SEES_S = [1.5, 4] as const;

const volts = (value: number): Quantity => ({ value: Number(value.toFixed(1)), unit: "V" });

/** Returns the simulated aircraft as the instruments show it to a partner. */
export function worldOf(run: Run, state: SessionState): World {
  const gauge = (engine: number | null, id: string) => gaugeShows(run.plant, run.sim, id, engine);
  return {
    gauge,
    check({ stage, range }) {
      if (stage !== "warmUp" || !range) return null;
      const id = { inHg: "suction", psi: "hydraulic", V: "busVolts" }[range.unit as string];
      return id === undefined ? null : gauge(null, id);
    },
    crank(engine) {
      const one = run.sim.engines.find((e) => e.n === engine);
      return one?.is === "running" ? "caught" : "turning";
    },
    cartVolts: () =>
      state.groundPower.is === "on" ? volts(run.sim.busVolts) : volts(run.plant.cart.openCircuit),
    crankingVolts: () => (run.lowestVolts === null ? null : volts(run.lowestVolts)),
    brakePressure() {
      const { value, unit } = state.type.brakePressure.atLeast;
      return { value: Math.round(value * 1.15 * run.sim.brakePart), unit };
    },
  };
}

/** Returns how partners play in this rehearsal. */
export const scriptOf = (run: Run, state: SessionState, pace: number): Script => ({
  ...{ seed: run.seed, pace: pace / run.script.slower, cart: "Rehearsal" },
  world: worldOf(run, state),
});

/** Returns true while a fault keeps a partner at this post from doing anything. */
export function isSilenced(run: Run, post: Post): boolean {
  return going(run).some(({ fault, post: whose }) => {
    const { silences } = FAULT[fault];
    return silences === "everybody" || (silences === "post" && whose === post);
  });
}

/** A partner's next move. */
export interface PartnerMove {
  move: Move;
  /** The word about a fault that it is; null for any other move. It is said once. */
  word: string | null;
}

/** What partners are told of the rehearsal around them. */
export interface Company {
  /** The posts that partners hold. */
  partners: readonly Post[];
  /** Words about faults that were said already. */
  said: ReadonlySet<string>;
  /** Server time, milliseconds. */
  now: number;
  /** How much faster than people they are. */
  pace: number;
}

/**
 * Returns the next move of a partner at this post; null when there is none. What they see goes wrong comes first, then
 * what they are asked.
 */
export function partnerMove(run: Run, state: SessionState, post: Post, company: Company): PartnerMove | null {
  if (isSilenced(run, post)) return null;
  const seen = seesFault(run, state, post, company) ?? seesStopped(run, state, post, company);
  if (seen) return seen;
  const move = playPost(state, post, company.now, scriptOf(run, state, company.pace));
  if (!move) return null;
  return slips(run, state, post, move, company.said) ?? { move, word: null };
}

function seesFault(
  run: Run,
  state: SessionState,
  post: Post,
  { partners, said, pace }: Company,
): PartnerMove | null {
  for (const { no, fault, engine } of going(run)) {
    const n = engine ?? 0;
    for (const [i, { from, say, when }] of FAULT[fault].says.entries()) {
      const word = `word ${no} ${i}`;
      if (said.has(word) || from.find((p) => partners.includes(p)) !== post) continue;
      if (when && !when(state, n)) continue;
      const [least, most] = SEES_S;
      const pauseMs = (1000 / pace) * (least + (most - least) * chance(run.seed, "sees", no, i));
      return { move: { key: word, action: say(n), pauseMs, notBefore: 0 }, word };
    }
  }
  return null;
}

/** A cockpit reports an engine that stopped by itself. */
function seesStopped(run: Run, state: SessionState, post: Post, { pace }: Company): PartnerMove | null {
  if (post !== "cockpit") return null;
  const still = state.engines.find(({ n, life }) => {
    const { is } = plain(life);
    const sim = run.sim.engines.find((e) => e.n === n)?.is;
    const said = is === "caught" || is === "running" || is === "stable";
    return said && (sim === "still" || sim === "runningDown" || sim === "cranking");
  });
  if (!still) return null;
  const action: Action = {
    ...{ type: "send", kind: "shutDown", channel: "panel" },
    ...{ engine: still.n, note: "It stopped by itself" },
  };
  const key = `stopped ${still.n} ${still.attempts}`;
  return { move: { key, action, pauseMs: 3_000 / pace, notBefore: 0 }, word: null };
}

/** Returns the move with the slip that a fault puts into it once: another engine's number in a read-back. */
function slips(
  run: Run,
  state: SessionState,
  post: Post,
  move: Move,
  said: ReadonlySet<string>,
): PartnerMove | null {
  const { action } = move;
  if (post !== "cockpit" || action.type !== "answer" || action.answer !== "readBack") return null;
  const wrong = going(run).find(({ no, fault }) => fault === "wrongNumber" && !said.has(`word ${no} slip`));
  const other = state.engines.find(({ n }) => n !== action.engine);
  if (!wrong || !other) return null;
  return { move: { ...move, action: { ...action, engine: other.n } }, word: `word ${wrong.no} slip` };
}
