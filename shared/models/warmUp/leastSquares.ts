/**
 * Computes the residual at one reading: fills `slopes` with the model's derivatives by each parameter, and returns
 * model − reading.
 */
export type Residual = (parameters: readonly number[], reading: number, slopes: number[]) => number;

export interface LeastSquares {
  parameters: number[];
  /** Sum of squared residuals. */
  rss: number;
  /** Inverse of JᵀJ. Multiplied by the residual variance it is the covariance of the parameters. */
  inverse: number[][];
}

const MOST_STEPS = 100;
/** Relative step below which the parameters have settled. */
const SETTLED = 1e-11;

/**
 * Minimises the sum of squares by damped Gauss–Newton steps of Levenberg and Marquardt (Marquardt 1963, SIAM J. Appl.
 * Math. 11:431), with damping scaled by the diagonal of JᵀJ. Returns null when it does not settle or JᵀJ is singular.
 */
export function leastSquares(
  residual: Residual,
  readings: number,
  start: readonly number[],
): LeastSquares | null {
  let parameters = [...start];
  let now = normal(residual, readings, parameters);
  let damping = 1e-4;
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    const damped = now.squares.map((row, i) => row.map((v, j) => (i === j ? v * (1 + damping) : v)));
    const inverse = invert(damped);
    if (!inverse) return null;
    const step = inverse.map((row) => -dot(row, now.slope));
    const next = parameters.map((p, i) => p + (step[i] ?? 0));
    const tried = normal(residual, readings, next);
    const settled = step.every((s, i) => Math.abs(s) <= SETTLED * (Math.abs(parameters[i] ?? 0) + SETTLED));
    if (tried.rss <= now.rss) {
      parameters = next;
      now = tried;
      damping = Math.max(damping / 10, 1e-14);
    } else {
      damping *= 10;
    }
    // At the minimum only rounding decides which of two sums is lower, so a vanishing step ends the search either way.
    if (settled || damping > 1e12) {
      const plain = invert(now.squares);
      return plain && Number.isFinite(now.rss) ? { parameters, rss: now.rss, inverse: plain } : null;
    }
  }
  return null;
}

/** Returns JᵀJ, Jᵀr and rᵀr at one set of parameters. */
function normal(residual: Residual, readings: number, parameters: readonly number[]) {
  const n = parameters.length;
  const squares = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const slope = new Array<number>(n).fill(0);
  const slopes = new Array<number>(n).fill(0);
  let rss = 0;
  for (let reading = 0; reading < readings; reading += 1) {
    const r = residual(parameters, reading, slopes);
    rss += r * r;
    for (let i = 0; i < n; i += 1) {
      const si = slopes[i] as number;
      slope[i] = (slope[i] as number) + si * r;
      const row = squares[i] as number[];
      for (let j = 0; j < n; j += 1) row[j] = (row[j] as number) + si * (slopes[j] as number);
    }
  }
  return { squares, slope, rss };
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, v, i) => sum + v * (b[i] ?? 0), 0);
}

/** Returns the inverse by Gauss–Jordan with pivoting, on a matrix scaled to a unit diagonal; null when singular. */
function invert(matrix: readonly (readonly number[])[]): number[][] | null {
  const n = matrix.length;
  const scales = matrix.map((row, i) => Math.sqrt(row[i] ?? 0));
  if (!scales.every((s) => s > 0 && Number.isFinite(s))) return null;
  const scaled = (i: number, j: number) => (scales[i] as number) * (scales[j] as number);
  const rows = matrix.map((row, i) => [
    ...row.map((v, j) => v / scaled(i, j)),
    ...row.map((_, j) => (i === j ? 1 : 0)),
  ]);
  for (let c = 0; c < n; c += 1) {
    let pivot = c;
    for (let r = c + 1; r < n; r += 1) {
      if (Math.abs(rows[r]?.[c] ?? 0) > Math.abs(rows[pivot]?.[c] ?? 0)) pivot = r;
    }
    const top = rows[pivot] as number[];
    if (!(Math.abs(top[c] ?? 0) > 1e-14)) return null;
    rows[pivot] = rows[c] as number[];
    rows[c] = top.map((v) => v / (top[c] as number));
    for (let r = 0; r < n; r += 1) {
      if (r === c) continue;
      const by = rows[r]?.[c] ?? 0;
      rows[r] = (rows[r] as number[]).map((v, j) => v - by * (rows[c]?.[j] ?? 0));
    }
  }
  return rows.map((row, i) => row.slice(n).map((v, j) => v / scaled(i, j)));
}
