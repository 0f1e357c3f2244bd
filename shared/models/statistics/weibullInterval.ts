import type { Lifetime } from "./kaplanMeier.ts";

/** 95 % of a normal law lie within so many standard deviations of its mean. */
export const Z95 = 1.959963984540054;

/** A value and the limits of its interval. */
export interface Interval {
  value: number;
  low: number;
  high: number;
}

/** A Weibull law as ln of a lifetime is spread: `mu` = ln(scale), `sigma` = 1 / shape, with their covariances. */
export interface WeibullSpread {
  mu: number;
  sigma: number;
  varMu: number;
  covariance: number;
  varSigma: number;
}

/**
 * Returns the covariances of a maximum-likelihood fit: the inverse of the observed information (Meeker and Escobar,
 * Statistical Methods for Reliability Data, 1998, section 8.4). With z = (ln t - mu) / sigma and sums over all
 * lifetimes, the second derivatives of -ln L times sigma^2 are sum e^z, sum z e^z and sum z^2 e^z + failures.
 */
export function weibullSpread(
  lifetimes: readonly Lifetime[],
  { scale, shape }: { scale: number; shape: number },
): WeibullSpread {
  const [mu, sigma] = [Math.log(scale), 1 / shape];
  let [one, two, three] = [0, 0, 0];
  for (const { time, failed } of lifetimes) {
    const z = (Math.log(time) - mu) / sigma;
    const power = Math.exp(z);
    one += power;
    two += z * power;
    three += z * z * power + (failed ? 1 : 0);
  }
  const unit = sigma ** 2 / (one * three - two * two);
  return { mu, sigma, varMu: three * unit, covariance: -two * unit, varSigma: one * unit };
}

/** Returns the intervals of scale and shape, normal in ln(scale) and ln(sigma) (the same section). */
export function weibullIntervals(spread: WeibullSpread, z = Z95): { scale: Interval; shape: Interval } {
  const { mu, sigma, varMu, varSigma } = spread;
  const aside = z * Math.sqrt(varMu);
  const factor = Math.exp((z * Math.sqrt(varSigma)) / sigma);
  return {
    scale: { value: Math.exp(mu), low: Math.exp(mu - aside), high: Math.exp(mu + aside) },
    shape: { value: 1 / sigma, low: 1 / (sigma * factor), high: factor / sigma },
  };
}

/** Returns the share that has not failed by a time, with its interval: that of z = (ln t - mu) / sigma, turned back. */
export function weibullSurvival(time: number, spread: WeibullSpread, z = Z95): Interval {
  const { mu, sigma, varMu, covariance, varSigma } = spread;
  const at = (Math.log(time) - mu) / sigma;
  const se = Math.sqrt(varMu + 2 * at * covariance + at * at * varSigma) / sigma;
  const left = (w: number) => Math.exp(-Math.exp(w));
  return { value: left(at), low: left(at + z * se), high: left(at - z * se) };
}
