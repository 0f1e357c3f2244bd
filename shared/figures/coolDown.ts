import { type Engine, isTurning, plain } from "../engine/life.ts";
import { coolDownLeft } from "../models/warmUp/coolDown.ts";
import type { TimeLeft } from "../models/warmUp/predict.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { coolDownShort, idleUntil } from "../stopping/coolDown.ts";
import { nextToStop } from "../stopping/nextToStop.ts";
import type { StoppingData } from "../types/stopping.ts";
import { accessoryWords } from "./accessoryWords.ts";
import { cautions, type Figure, type FigureInput, notRead, ofType, ofTypeData, read } from "./figure.ts";

type CoolDown = NonNullable<StoppingData["coolDown"]>;

/** Returns the time left to the end of one engine's cool-down, and what governs it; null outside a return. */
export function coolDownFigure(state: SessionState, n: number, now: number): Figure | null {
  const rule = state.type.stopping?.coolDown;
  const engine = engineOf(state, n);
  if (!state.returning || !rule || !engine || plain(engine.life).is !== "stable") return null;
  const since = state.returning.coolingSince;
  const short = coolDownShort(state, engine, now);
  const base = {
    id: `coolDown:${n}`,
    unit: "s" as const,
    inputs: inputsOf(state, rule, engine, since),
    equation:
      "the later of the time at idle and of each gauge at its figure, by T(t) = steady + (first - steady) e^(-rate t)",
    source: "the type's cool-down; Newton's law of cooling, fitted to the readings at idle",
  };
  if (short.length === 0) return { ...base, words: "coolDown.over", value: 0, verdict: "good" };
  const waits = short.map((s) => ({
    name: s.is === "time" ? "time at idle" : nameOf(state, s.gauge),
    left: s.is === "time" ? timeTo(idleUntil(state), now) : gaugeLeft(engine, rule, s.gauge, since, now),
    unread: s.is === "gauge" && s.found === null,
  }));
  const open = waits.filter((w) => w.left === null);
  const latest = waits.reduce((a, b) => ((b.left?.seconds ?? 0) > (a.left?.seconds ?? 0) ? b : a));
  const governs = open[0] ?? latest;
  return {
    ...base,
    words: "coolDown",
    value: open.length > 0 ? null : (latest.left?.seconds ?? null),
    verdict: since === null || waits.some((w) => w.unread) ? "unknown" : "none",
    detail: detailOf(governs.name, governs.left),
    ...cautions(
      since === null && "Nobody has reported yet that the engines idle.",
      since !== null && waits.some((w) => w.unread) && "Read each gauge at idle.",
      since !== null &&
        open.some((w) => !w.unread) &&
        "The readings cannot say yet how long: read again, and keep the power as it is.",
      "An engine can always be stopped at once: then write why.",
    ),
  };
}

const detailOf = (name: string, left: TimeLeft | null): string =>
  left === null || left.plusMinus === 0
    ? `${name} governs`
    : `plus or minus ${left.plusMinus.toFixed(0)} s; ${name} governs`;

const timeTo = (until: number | null, now: number): TimeLeft | null =>
  until === null ? null : { seconds: (until - now) / 1000, plusMinus: 0 };

const nameOf = ({ type }: SessionState, id: string) => type.gauges.find((g) => g.id === id)?.name ?? id;

/** Returns the time left of one gauge from now on, by its readings since the engines idle; null while not determined. */
function gaugeLeft(
  engine: Engine,
  rule: CoolDown,
  gauge: string,
  since: number | null,
  now: number,
): TimeLeft | null {
  const limit = rule.gauges.find((g) => g.gauge === gauge)?.atMost.value;
  const readings = (engine.warmUp?.[gauge] ?? []).filter((r) => since !== null && r.at >= since);
  const last = readings.at(-1);
  if (limit === undefined || since === null || !last) return null;
  const left = coolDownLeft(
    readings.map((r) => ({ seconds: (r.at - since) / 1000, temperature: r.value })),
    limit,
  );
  if (!left.ok || !left.value) return null;
  return { ...left.value, seconds: Math.max(0, left.value.seconds - (now - last.at) / 1000) };
}

function inputsOf(state: SessionState, rule: CoolDown, engine: Engine, since: number | null): FigureInput[] {
  const idle: FigureInput =
    since === null
      ? notRead("engines at idle")
      : {
          name: "engines at idle",
          value: "since then",
          unit: null,
          source: "said by the cockpit",
          at: since,
        };
  return [
    idle,
    ...(rule.atIdle ? [ofType("time at idle", rule.atIdle)] : []),
    ...rule.gauges.flatMap(({ gauge, atMost }) => {
      const name = nameOf(state, gauge);
      const last = engine.readings[gauge];
      const atIdle = last && since !== null && last.at >= since ? last : null;
      return [ofType(`${name}, at most`, atMost), read(`${name}, number ${engine.n}`, atIdle)];
    }),
  ];
}

/** Returns the order of stopping with the engine that is stopped next; null outside a return or without the data. */
export function stopOrderFigure(state: SessionState): Figure | null {
  const rules = state.type.stopping;
  if (!state.returning || !rules) return null;
  const usual = rules.order.filter((n) => state.order.includes(n));
  const coming = state.stage === "plan" || state.stage === "brief";
  const next = coming ? state.order[0] : nextToStop(state)?.n;
  const same = usual.join() === state.order.join();
  return {
    id: "stopOrder",
    words: "stopOrder",
    value: state.order.join("-"),
    unit: null,
    verdict: same ? "good" : "caution",
    detail: [
      next === undefined ? "every engine is stopped" : `number ${next} is stopped next`,
      ...(same ? [] : [`the type has ${usual.join("-")}`]),
    ].join("; "),
    inputs: [ofTypeData("order of stopping", rules.order.join("-"), rules.orderSource), ...drivenBy(state)],
    equation: "the type's order, of the engines that came in turning",
    source: "the type's order of stopping",
    ...cautions("An engine can always be stopped at once: then write why."),
  };
}

function drivenBy({ type, engines }: SessionState): FigureInput[] {
  return engines
    .filter((e) => isTurning(e.life))
    .map(({ n }) => ({
      name: `driven by number ${n}`,
      value: driven(type, n).map(accessoryWords).join(", ") || null,
      unit: null,
      source: "the type",
      at: null,
    }));
}

const driven = ({ engines }: SessionState["type"], n: number): string[] =>
  engines.find((e) => e.n === n)?.accessories ?? [];

/** Returns the accessories that stop with a turning engine in a return; null where nothing is lost with it. */
export function stopsWithFigure(state: SessionState, n: number): Figure | null {
  const engine = engineOf(state, n);
  if (!state.returning || !engine || !isTurning(engine.life)) return null;
  const others = state.engines.filter((e) => e.n !== n && isTurning(e.life));
  const left = new Set(others.flatMap((e) => driven(state.type, e.n)));
  const lost = driven(state.type, n).filter((a) => !left.has(a));
  if (lost.length === 0) return null;
  return {
    id: `stopsWith:${n}`,
    words: "stopsWith",
    value: lost.map(accessoryWords).join(", "),
    unit: null,
    verdict: "none",
    inputs: drivenBy(state),
    equation: "what this engine drives, less what the other engines that turn drive too",
    source: "the type's accessories",
  };
}
