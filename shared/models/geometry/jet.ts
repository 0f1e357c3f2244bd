import type { Source } from "../../types/limit.ts";

/**
 * The assumptions about how a stream slows. They belong to an estimate and are not limits of an aircraft, so every
 * figure made from them carries them along.
 */
export interface JetAssumption {
  /** Decay constant K of u / u0 = K d / x. */
  decay: number;
  /** Half-width per metre behind: where the speed is half of that in the middle. */
  halfWidth: number;
  /** Factor on distances, at least 1: a jet along the ground slows less than a free one. */
  groundFactor: number;
  source: Source;
}

/**
 * A round free jet (Abdel-Rahman et al., Mech. Res. Comm. 23, 1996, 313: K 6.11; others 5.8 to 6.2), with K as used in
 * ducts.
 */
export const FREE_JET: JetAssumption = {
  decay: 6.2,
  halfWidth: 0.1,
  groundFactor: 1,
  source: {
    basis: "fromMemory",
    text: "round free jet, K 6.2; measured 6.11 (Abdel-Rahman et al. 1996); half-width 0.1 x; no ground effect",
  },
};

/** A figure and its assumptions. */
export interface Estimate {
  value: number;
  assumption: JetAssumption;
}

/** A round jet at its beginning: speed m/s and diameter m, e.g. a propeller's far wake. */
export interface Jet {
  speedMs: number;
  diameterM: number;
}

/** Returns the speed in the middle of a jet x metres behind: u0 within the core (x < K d), then u0 K d / x. */
export function jetSpeed(jet: Jet, behindM: number, assumption: JetAssumption): Estimate {
  const x = Math.max(0, behindM) / assumption.groundFactor;
  const core = assumption.decay * jet.diameterM;
  return { value: x <= core ? jet.speedMs : (jet.speedMs * core) / x, assumption };
}

/** Returns the speed r metres to one side of the middle: Gaussian, u exp(-ln 2 (r / b)^2), b the half-width there. */
export function jetSpeedAside(
  jet: Jet,
  behindM: number,
  asideM: number,
  assumption: JetAssumption,
): Estimate {
  const middle = jetSpeed(jet, behindM, assumption).value;
  const half = Math.max(jet.diameterM / 2, (assumption.halfWidth * behindM) / assumption.groundFactor);
  return { value: middle * Math.exp(-Math.LN2 * (asideM / half) ** 2), assumption };
}

/** Returns the distance behind at which the middle has slowed to `speedMs`; 0 when the jet was never faster. */
export function jetReach(jet: Jet, speedMs: number, assumption: JetAssumption): Estimate {
  const free = jet.speedMs <= speedMs ? 0 : (jet.speedMs * assumption.decay * jet.diameterM) / speedMs;
  return { value: free * assumption.groundFactor, assumption };
}
