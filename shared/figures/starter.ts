import { attemptsSinceRun } from "../engine/attempts.ts";
import { starterDutyAt } from "../models/starter.ts";
import { coolDownLeft, heatAfter } from "../models/starterThermal.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { cautions, type Figure, type FigureInput, ofType } from "./figure.ts";
import { airInput, TEMPERATURE_NOT_READ } from "./temperature.ts";

/** Returns the seconds until the starter's ladder permits the next engagement, and how long that may last. */
export function starterRest(state: SessionState, engine: number, now: number): Figure | null {
  const e = engineOf(state, engine);
  if (!e) return null;
  const duty = starterDutyAt(state.type.starter, e.starter, now, airTemperature(state));
  const running = !Number.isFinite(duty.permittedAt);
  const left = running ? null : Math.max(0, (duty.permittedAt - now) / 1000);
  const last = e.starter.at(-1);
  const used: FigureInput[] = last
    ? [
        {
          name: "engaged last",
          value: ((last.off ?? now) - last.on) / 1000,
          unit: "s",
          source: "recorded",
          at: last.on,
        },
      ]
    : [];
  const rung = state.type.starter.ladder[Math.min(duty.step, state.type.starter.ladder.length - 1)];
  return {
    id: `starterRest:${engine}`,
    words: "starterRest",
    value: left,
    unit: "s",
    verdict: left === null ? "none" : left > 0 ? "bad" : "good",
    inputs: [
      ...used,
      { name: "engagements recorded", value: e.starter.length, unit: "count", source: "recorded", at: null },
      {
        name: "next may last",
        value: duty.onMax / 1000,
        unit: "s",
        source: rung ? `ladder, step ${duty.step + 1}` : "ladder",
        at: null,
      },
      airInput(state),
    ],
    equation: "next = end of the last + the rest of its step; after the last step its rest again",
    source: "the type's ladder by the band of the air's temperature (form: TM 55-1510-215-10)",
    ...cautions(running && "The starter is engaged.", duty.assumed && TEMPERATURE_NOT_READ),
  };
}

/** Returns the estimated heat of the starter. It is shown beside the ladder and never replaces it. */
export function starterHeat(state: SessionState, engine: number, now: number): Figure | null {
  const rules = state.type.starter.heat;
  const e = engineOf(state, engine);
  if (!rules || !e) return null;
  const model = { steady: rules.steady.value, tauOn: rules.tauOn.value, tauOff: rules.tauOff.value };
  const uses = e.starter.map(({ on, off }) => ({ on: on / 1000, off: off === null ? null : off / 1000 }));
  const heat = heatAfter(model, uses, now / 1000);
  const left = heat.ok ? coolDownLeft(model, heat.value, rules.coolTo.value) : heat;
  return {
    id: `starterHeat:${engine}`,
    words: "starterHeat",
    value: heat.ok ? heat.value : null,
    unit: "K",
    verdict: !heat.ok
      ? "unknown"
      : heat.value > rules.most.value
        ? "bad"
        : heat.value > rules.coolTo.value
          ? "caution"
          : "good",
    inputs: [
      {
        name: "engagements recorded",
        value: uses.length,
        unit: "count",
        source: "recorded",
        at: e.starter.at(-1)?.on ?? null,
      },
      {
        name: "rest until cool enough",
        value: left.ok ? left.value : null,
        unit: "s",
        source: "worked out",
        at: null,
      },
      ofType("settles at, held for ever", rules.steady),
      ofType("most", rules.most),
      ofType("cool enough below", rules.coolTo),
      ofType("time constant, engaged", rules.tauOn),
      ofType("time constant, at rest", rules.tauOff),
    ],
    equation: "engaged: heat' = (steady - heat) / tau on; at rest: heat' = -heat / tau off",
    source: "first-order heating, cold before the first engagement recorded",
    ...cautions("An estimate beside the ladder: the ladder decides.", !heat.ok && heat.why),
  };
}

/** Returns the attempts made since the engine last ran, against the type's number; null where the type gives none. */
export function attemptsFigure(state: SessionState, engine: number): Figure | null {
  const most = state.type.starter.attempts;
  const e = engineOf(state, engine);
  if (!most || !e) return null;
  const made = attemptsSinceRun(e);
  return {
    id: `attempts:${engine}`,
    words: "attempts",
    value: made,
    unit: "count",
    verdict: made >= most.value ? "bad" : made > 0 ? "caution" : "good",
    inputs: [
      { name: "engagements recorded", value: e.starter.length, unit: "count", source: "recorded", at: null },
      {
        name: "last ran",
        value: e.lastRanAt === null ? "not known" : "recorded",
        unit: null,
        source: "recorded",
        at: e.lastRanAt,
      },
      ofType("attempts before the reason is looked for", most),
    ],
    equation: "engagements of the starter since the engine last ran",
    source: "AC 61-23 sec. 2-17: after a reasonable number of attempts look for the reason",
    ...cautions(made >= most.value && "Look at ignition and fuel before another attempt."),
  };
}
