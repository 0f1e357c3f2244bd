import { chance } from "../../shared/partners/chance.ts";
import { FAULTS } from "../../shared/protocol/rehearsalFaults.ts";
import { debriefOf } from "../../shared/rehearsal/debrief.ts";
import { MOMENTS, type RehearsalScript } from "../../shared/rehearsal/script.ts";
import { exported } from "../spec/given.ts";
import { type Instead, script, Theatre, TYPES } from "./theatre.ts";

const pick = <T>(all: readonly T[], seed: number, ...words: (string | number)[]): T =>
  all[Math.floor(chance(seed, ...words) * all.length)] as T;

/** Returns a script drawn by a seed: up to six faults of any kind at any moment. */
export function randomScript(seed: number): RehearsalScript {
  const count = Math.floor(7 * chance(seed, "count"));
  return script({
    airC: Math.round(-15 + 45 * chance(seed, "air")),
    slower: 1 + chance(seed, "slower"),
    faults: Array.from({ length: count }, (_, i) => ({
      fault: pick(FAULTS, seed, "kind", i),
      which: 1 + Math.floor(4 * chance(seed, "which", i)),
      after: pick(MOMENTS, seed, "after", i),
      seconds: Math.round(30 * chance(seed, "seconds", i)),
      chance: 0.3 + 0.7 * chance(seed, "chance", i),
    })),
  });
}

/** Returns a crew drawn by a seed: it forgets some of what it would do, and holds or cuts without a cause at times. */
export function randomCrew(seed: number): Instead {
  const bad = 0.06 * chance(seed, "bad");
  return (_state, post, action, { run }) => {
    const draw = chance(seed, "act", post, run.t);
    if (draw < bad) return null;
    if (draw < 1.4 * bad) return { type: "send", kind: "hold", channel: "panel" };
    if (draw < 1.6 * bad && post === "cockpit") return { type: "send", kind: "cutAll", channel: "panel" };
    return action;
  };
}

export interface RandomRun {
  seed: number;
  /** The place where it is stuck; null when it ended. */
  stuck: string | null;
  /** The record as it would be exported. */
  text: string;
  lines: number;
}

/** Plays one random script with one random crew to its end. */
export function randomRun(seed: number): RandomRun {
  const type = pick(TYPES, seed, "type");
  const theatre = new Theatre(type, randomScript(seed), seed);
  const stuck = theatre.play(120, randomCrew(seed), 2_000);
  const { manifest, lines } = exported(theatre.events);
  const named = { ...manifest, aircraft: theatre.state.aircraft };
  const text = `${JSON.stringify(named)}\n${lines.join("\n")}\n`;
  return { seed, stuck, text, lines: debriefOf(theatre.events).length };
}
