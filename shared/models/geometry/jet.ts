import type { Source } from "../../types/limit.ts";

/**
 * The assumed slowing of a stream. These are assumptions of an estimate, not limits of an aircraft: they travel with
 * every figure they made.
 */
export interface JetAssumption {
  /** Decay constant K of u / u0 = K d / x. */
  decay: number;
  /** Half-width, where the speed is half the middle's, per metre behind. */
  halfWidth: number;
  /** Factor on distances because a jet along the ground slows less than a free one; at least 1. */
  groundFactor: number;
  source: Source;
}

/** A round free jet (Abdel-Rahman et al., Mech. Res. Comm. 23, 1996, 313: K 6.11; others 5.8 to 6.2), K as used in ducts. */
export const FREE_JET: JetAssumption = {
  decay: 6.2,
  halfWidth: 0.1,
  groundFactor: 1,
  source: {
    basis: "fromMemory",
    text: "round free jet, K 6.2; measured 6.11 (Abdel-Rahman et al. 1996); half-width 0.1 x; no ground effect",
  },
};

/** A figure and what it rests on. */
export interface Estimate {
  value: number;
  assumption: JetAssumption;
}

/** A round jet where it begins: speed m/s and diameter m, e.g. a propeller's far wake. */
export interface Jet {
  speedMs: number;
  diameterM: number;
}

/** Speed in the middle of a jet x metres behind: u0 within the core (x < K d), then u0 K d / x. */
export function jetSpeed(jet: Jet, behindM: number, assumption: JetAssumption): Estimate {
  const x = Math.max(0, behindM) / assumption.groundFactor;
  const core = assumption.decay * jet.diameterM;
  return { value: x <= core ? jet.speedMs : (jet.speedMs * core) / x, assumption };
}

/** Speed at one side, r metres from the middle: Gaussian, u exp(-ln 2 (r / b)^2), b the half-width there. */
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

/** Distance behind at which the middle has slowed to `speedMs`; 0 when the jet was never faster. */
export function jetReach(jet: Jet, speedMs: number, assumption: JetAssumption): Estimate {
  const free = jet.speedMs <= speedMs ? 0 : (jet.speedMs * assumption.decay * jet.diameterM) / speedMs;
  return { value: free * assumption.groundFactor, assumption };
}
