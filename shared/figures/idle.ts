import { type Engine, plain } from "../engine/life.ts";
import { warmUpGate } from "../models/warmUp/gate.ts";
import { gateRules, warmUpSeries } from "../runUp/gates.ts";
import { idleReached } from "../runUp/idleSteps.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import type { IdleStep } from "../types/schema.ts";
import { cautions, type Figure, ofType, read } from "./figure.ts";

/**
 * Returns the revolutions at which an engine may idle now, and what the next step waits for, with the time left; null
 * while the engine does not run, in a return, and where the type gives no steps.
 */
export function idleFigure(state: SessionState, n: number, now: number): Figure | null {
  const steps = state.type.idle;
  const engine = engineOf(state, n);
  if (!steps || !engine || state.returning || !runs(engine)) return null;
  const at = idleReached(state, engine);
  if (!at) return null;
  const {
    may: { step: may },
    next,
  } = at;
  const waits = next?.from;
  const name = state.type.gauges.find((g) => g.id === waits?.gauge)?.name ?? waits?.gauge ?? "";
  const left = next && leftTo(engine, next, now);
  return {
    id: `idle:${n}`,
    words: next ? "idle" : "idle.last",
    value: may.rpm.value,
    unit: may.rpm.unit,
    verdict: "none",
    ...(next && { detail: detailOf(next, name, left ?? null) }),
    inputs: [
      read("revolutions", engine.readings.rpm ?? null),
      ...(waits ? [read(`${name}, number ${n}`, engine.readings[waits.gauge] ?? null)] : []),
      ...steps.flatMap(({ rpm, from }, i) => [
        ofType(`step ${i + 1}`, rpm),
        ...(from === undefined
          ? []
          : [
              "riseOf" in from
                ? { ...ofType("once it has risen", from.riseOf), difference: true as const }
                : ofType("once it is at", from.atLeast),
            ]),
      ]),
    ],
    equation: "the last step whose figures were all read; left as in the warm-up, by Newton's law",
    source: "the type's steps; oil warm before more revolutions (airline operations 1946, 3034)",
    ...cautions(
      waits &&
        engine.readings[waits.gauge] !== undefined &&
        left === null &&
        "The readings cannot say yet how long: read again, and keep the power as it is.",
    ),
  };
}

function runs({ life }: Engine): boolean {
  const { is } = plain(life);
  return is === "running" || is === "stable";
}

/** Returns the seconds left to a step from now on, with one standard error; null while the readings do not say it. */
function leftTo(engine: Engine, step: IdleStep, now: number): { seconds: number; plusMinus: number } | null {
  if (!step.from) return null;
  const since = engine.starter.at(-1)?.off ?? 0;
  const judged = warmUpGate(gateRules([step.from]), [warmUpSeries(engine, [step.from], since)]);
  const left = judged.ok ? judged.value.left : null;
  const last = engine.readings[step.from.gauge]?.at ?? now;
  return left && { ...left, seconds: Math.max(0, left.seconds - (now - last) / 1000) };
}

function detailOf(
  { rpm }: IdleStep,
  name: string,
  left: { seconds: number; plusMinus: number } | null,
): string {
  if (left === null) return `then ${rpm.value} rpm, by ${name}`;
  const [seconds, plusMinus] = [Math.ceil(left.seconds), left.plusMinus.toFixed(0)];
  return `then ${rpm.value} rpm, by ${name} in ${seconds} s, plus or minus ${plusMinus} s`;
}
