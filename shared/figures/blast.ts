import { jetReach } from "../models/geometry/jet.ts";
import { jetOf } from "../models/geometry/jetOf.ts";
import { inUnit } from "../models/units.ts";
import { NEIGHBOURS } from "../protocol/neighbours.ts";
import type { SessionState } from "../session/state.ts";
import { cautions, type Figure, ofType, ofTypeData } from "./figure.ts";

/**
 * Returns for each kind of neighbour the distance to keep around the aircraft, and behind a turning propeller: the
 * larger of the type's figure and the stream's reach.
 */
export function clearDistances({ type }: Pick<SessionState, "type">): Figure[] {
  const distances = type.ramp?.distances;
  if (!distances) return [];
  const stream = jetOf(type);
  return NEIGHBOURS.flatMap((kind): Figure[] => {
    const { around, behind, wind } = distances[kind];
    const reach = stream.ok
      ? jetReach(stream.value.jet, inUnit(wind, "m/s"), stream.value.assumption).value
      : null;
    const asked = inUnit(behind, "m");
    const jet = stream.ok ? stream.value.rules : null;
    return [
      {
        id: `clearAround:${kind}`,
        words: `clearAround.${kind}`,
        value: inUnit(around, "m"),
        unit: "m",
        verdict: "none",
        inputs: [ofType("keep around", around)],
        equation: "the type's figure",
        source: "the type",
      },
      {
        id: `clearBehind:${kind}`,
        words: `clearBehind.${kind}`,
        value: Math.max(asked, reach ?? 0),
        unit: "m",
        verdict: "none",
        inputs: [
          ofType("keep behind", behind),
          ofType("fastest stream it may stand in", wind),
          { name: "the stream reaches", value: reach, unit: "m", source: "worked out", at: null },
          ...(jet
            ? [
                ofType("power while starting", jet.power),
                ofTypeData("share that makes thrust", jet.figureOfMerit.value, jet.figureOfMerit.source),
                ofTypeData("decay K", jet.decay.value, jet.decay.source),
                ofTypeData("ground factor", jet.groundFactor.value, jet.groundFactor.source),
              ]
            : []),
        ],
        equation: "larger of the figure and x = K d u0 / u, u0 = 2 v, v = sqrt(T / 2 rho A)",
        source: "actuator disk (Rankine and Froude) and a round free jet; no wing, no ground but the factor",
        ...cautions(
          "An estimate with its assumptions, at sea level in standard air.",
          !stream.ok && stream.why,
        ),
      },
    ];
  });
}
