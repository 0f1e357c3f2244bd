import { jetOf } from "../models/geometry/jetOf.ts";
import type { Separation } from "../models/geometry/separation.ts";
import { clearOf, type StandCase } from "../plan/standPlan.ts";
import type { StandNeighbour } from "../protocol/neighbours.ts";
import type { SessionState } from "../session/state.ts";
import { cautions, type Figure, type FigureInput, ofType, ofTypeData } from "./figure.ts";

/** Returns the stand of a session. */
export function standCaseOf({ type, order, headingDeg, neighbours = [] }: SessionState): StandCase {
  return { type, engines: order, headingDeg, neighbours };
}

/**
 * Returns for each neighbour its least distance against the distance to keep, around the aircraft and in every stream.
 */
export function neighbourFigures(stand: StandCase): Figure[] {
  const clear = clearOf(stand);
  return stand.neighbours.map((near, i): Figure => {
    const checks = clear.ok ? clear.value.filter((c) => c.id === String(i)) : [];
    const around = checks.find((c) => c.rule === "around");
    const close = checks.filter((c) => !c.clear);
    const named = close[0] ?? around;
    return {
      id: `neighbour:${i}`,
      words: `neighbour.${near.kind}`,
      value: named?.gap ?? null,
      unit: "m",
      verdict: !clear.ok ? "unknown" : close.length > 0 ? "bad" : "good",
      detail: named ? `${near.name}: ${needs(named)}` : near.name,
      inputs: [
        ...placed(near),
        {
          name: "heading of the nose, degrees",
          value: stand.headingDeg ?? null,
          unit: null,
          source: stand.headingDeg === undefined ? "not planned" : "the plan",
          at: null,
        },
        ...checks.flatMap(checked),
        ...limits(stand, near),
      ],
      equation:
        "distance > larger of the figure and x = K d u0 / u; around: from nose to tail, wing tips and discs",
      source: "plane geometry; actuator disk (Rankine and Froude) and a round free jet",
      ...cautions(
        !clear.ok && `${clear.why}.`,
        close.length > 0 && `Too near: ${close.map(needs).join("; ")}.`,
        clear.ok && !jetOf(stand.type).ok && "The type gives no stream: its own figures alone are taken.",
        "By the plan, as a square as wide as it was said to be: look and measure before the start.",
      ),
    };
  });
}

/**
 * Returns a sentence for each neighbour that is too near; empty when none is, or when the distances cannot be worked
 * out.
 */
export function tooNear(stand: StandCase): string[] {
  const clear = clearOf(stand);
  if (!clear.ok) return [];
  return clear.value
    .filter((c) => !c.clear)
    .map((c) => `${stand.neighbours[Number(c.id)]?.name ?? c.kind}: ${needs(c)}`);
}

function needs({ rule, engine, gap, needed, decidedBy }: Separation): string {
  const where = rule === "around" ? "around" : `behind number ${engine}`;
  const why = decidedBy === "stream" ? ", by its stream" : "";
  return `${gap.toFixed(1)} m ${where}, more than ${needed.toFixed(1)} m needed${why}`;
}

function placed({ bearingDeg, distance, across, name }: StandNeighbour): FigureInput[] {
  const source = `the plan: ${name}`;
  return [
    { name: "bearing from the nose, degrees true", value: bearingDeg, unit: null, source, at: null },
    { name: "distance from the nose", value: distance.value, unit: distance.unit, source, at: null },
    { name: "across", value: across.value, unit: across.unit, source, at: null },
  ];
}

function checked({ rule, engine, gap, needed, decidedBy }: Separation): FigureInput[] {
  const where = rule === "around" ? "around" : `behind number ${engine}`;
  const source = decidedBy === "stream" ? "the stream's reach" : "the type's figure";
  return [
    { name: `there is, ${where}`, value: gap, unit: "m", source: "worked out", at: null },
    { name: `more is needed than, ${where}`, value: needed, unit: "m", source, at: null },
  ];
}

function limits({ type }: StandCase, { kind }: StandNeighbour): FigureInput[] {
  const asked = type.ramp?.distances?.[kind];
  const jet = type.ramp?.jet;
  return [
    ...(asked
      ? [
          ofType("keep around", asked.around),
          ofType("keep behind", asked.behind),
          ofType("fastest stream it may stand in", asked.wind),
        ]
      : []),
    ...(jet
      ? [
          ofType("power while starting", jet.power),
          ofTypeData("decay K", jet.decay.value, jet.decay.source),
          ofTypeData("ground factor", jet.groundFactor.value, jet.groundFactor.source),
        ]
      : []),
  ];
}
