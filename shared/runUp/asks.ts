import { type Ask, ask, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import type { Engine } from "../engine/life.ts";
import { starterHeld } from "../engine/starterHeld.ts";
import type { ReleaseFault, ReleaseVerdict } from "../models/runUp/release.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import { reading } from "../readings/ask.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { gaugeName } from "../types/gaugeName.ts";
import { CHECK_ITEMS } from "./checkItems.ts";
import { gatesShort } from "./gates.ts";
import { fasterIdle } from "./idleSteps.ts";
import { runs } from "./runs.ts";
import { itemGauge, releaseVerdict, runUpChecks } from "./verdict.ts";

/**
 * Returns the asks for the run-up of a warm engine, figure by figure, then its gauges. A failed check is read again.
 */
export function runUp(state: SessionState): Ask[] {
  if (state.stage !== "warmUp") return [];
  const verdict = releaseVerdict(state);
  if (!verdict || gatesShort(state).length > 0) return [];
  const turning = state.engines.filter(runs);
  const items = turning.flatMap((e) => runUpItems(state, e, verdict));
  // Figures that were never read come first, then those of failed checks, the oldest first: a check is read again as a
  // whole.
  const asked = items.sort((a, b) => a.at - b.at).flatMap(({ engine, item }) => itemAsk(state, engine, item));
  return [...asked, ...runUpGauges(state, verdict)];
}

interface ItemDue {
  engine: number;
  item: RunUpItem;
  /** Time of the last reading; 0 for none. */
  at: number;
}

function runUpItems(state: SessionState, engine: Engine, { faults }: ReleaseVerdict): ItemDue[] {
  return runUpChecks(state.type).flatMap((check) => {
    const items: readonly RunUpItem[] = CHECK_ITEMS[check];
    const missing = items.filter((item) => engine.runUp?.[item] === undefined);
    const failed = faults.some((f) => faultOf(f, engine.n) === check);
    const due = missing.length > 0 ? missing : failed && !isWrittenUp(state, engine, items) ? items : [];
    return due.map((item) => ({ engine: engine.n, item, at: engine.runUp?.[item]?.at ?? 0 }));
  });
}

function itemAsk(state: SessionState, engine: number, item: RunUpItem): Ask[] {
  const unit = itemGauge(state.type, item)?.unit;
  if (!unit) return [];
  const draft = { type: "recordRunUp", engine, item } as const;
  return [
    ask({
      key: `runUp:${engine}:${item}`,
      say: "runUp",
      weight: 4,
      engine,
      detail: { is: "runUpItem", item },
      choices: [choice("readRunUp", "yes", draft, { is: "figure", field: "reading", unit })],
    }),
  ];
}

/** Returns true while a defect stands that was written after the last figure of a failed check: nobody reads it again. */
function isWrittenUp(
  { defects }: SessionState,
  { n, runUp = {} }: Engine,
  items: readonly RunUpItem[],
): boolean {
  const readAt = Math.max(...items.map((item) => runUp[item]?.at ?? 0));
  return defects.some((d) => (d.engine === n || d.engine === null) && d.by.at >= readAt);
}

/** Returns the check of a fault at this engine. If pressures disagree, they are read again at every engine. */
function faultOf(fault: ReleaseFault, engine: number): string | null {
  if (fault.code === "manifoldSpread") return "power";
  if (fault.code === "unreadable")
    return fault.engine === null || fault.engine === engine ? fault.check : null;
  if (fault.engine !== engine) return null;
  return fault.code === "magneto" || fault.code === "feather" ? fault.code : null;
}

function runUpGauges(state: SessionState, { faults }: ReleaseVerdict): Ask[] {
  return faults.flatMap((f) => {
    if (f.code !== "gauge" && f.code !== "gaugeNotRead" && f.code !== "gaugeUnreadable") return [];
    return ask({
      key: `runUpGauge:${f.engine ?? 0}:${f.gauge}`,
      say: f.engine === null ? "runUp.plain" : "runUp",
      weight: 4,
      engine: f.engine,
      detail: { is: "gauge", name: gaugeName(state.type, f.gauge) },
      choices: [reading(state, f.gauge, f.engine)],
    });
  });
}

/** Returns the asks for the readings that the warm-up still waits for. */
export function gates(state: SessionState): Ask[] {
  if (state.stage !== "warmUp") return [];
  const running = state.engines.filter(runs).map((e) => e.n);
  const short = gatesShort(state).filter(({ n }) => running.includes(n));
  return short.map(({ n, gauge }) =>
    ask({
      key: `gate:${n}:${gauge}`,
      say: "warmUp",
      weight: 4,
      engine: n,
      detail: { is: "gauge", name: gaugeName(state.type, gauge) },
      choices: [reading(state, gauge, n)],
    }),
  );
}

/**
 * Returns the ask to set one stable engine to the next step of its idle, once its figure allows it. Not while a starter
 * is held or a stop stands, and behind all that belongs to a start.
 */
export function idleAsk(state: SessionState): Ask[] {
  const { stage } = state;
  if ((stage !== "starting" && stage !== "warmUp") || starterHeld(state) || stopOpen(state)) return [];
  for (const engine of state.engines) {
    const { n } = engine;
    const faster = fasterIdle(state, engine);
    if (!faster) continue;
    const { value, unit } = faster.step.rpm;
    const set = { ...send("idleFaster", n), note: `${value} ${unit}` };
    return [
      ask({
        key: `idle:${n}:${faster.index}`,
        say: "idleFaster",
        weight: 4,
        engine: n,
        detail: { is: "figure", figure: { value, unit } },
        choices: [choice("idleSet", "yes", set)],
      }),
    ];
  }
  return [];
}
