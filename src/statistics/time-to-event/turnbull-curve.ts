import { cholesky } from "../linear-algebra/cholesky.ts";
import { zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { type IntervalSample, requireIntervalSample } from "./interval-sample.ts";

/** A stretch of time that takes a share of the events; where in it they fall the data cannot say. */
export interface TurnbullStep {
  /** events fall after this time (at it, when `from` equals `to`) */
  from: number;
  /** and not after this one; Infinity for the share still waiting at the last look */
  to: number;
  share: number;
  /** share still waiting after `to` */
  survival: number;
}

/** The curve of the share still waiting, from times known only as intervals. */
export interface TurnbullCurve {
  observations: number;
  steps: TurnbullStep[];
  /** the median lies in this stretch; `to` is Infinity when fewer than half are known to be done */
  median: { from: number; to: number };
  logLikelihood: number;
}

interface End {
  value: number;
  /** closed left ends come before right ends of the same value, open left ends after */
  order: 0 | 1 | 2;
  row: number;
}

/** Stretches from a left end to the right end that follows it directly: only these can take a share. */
function innermostStretches(sample: IntervalSample): { from: number; to: number; rows: number[] }[] {
  const ends: End[] = sample.lower.flatMap((value, row): End[] => {
    const upper = sample.upper[row]!;
    return [
      { value, order: value === upper ? 0 : 2, row },
      { value: upper, order: 1, row },
    ];
  });
  ends.sort((a, b) => a.value - b.value || a.order - b.order);
  const stretches: { from: number; to: number; rows: number[] }[] = [];
  const open = new Set<number>();
  ends.forEach((end, k) => {
    if (end.order !== 1) {
      open.add(end.row);
      return;
    }
    const before = ends[k - 1]!;
    if (before.order !== 1) stretches.push({ from: before.value, to: end.value, rows: [...open] });
    open.delete(end.row);
  });
  return stretches;
}

/** The shares that maximise the likelihood: self-consistent steps, with Newton steps on the shares above 0 to finish. */
function maximumLikelihoodShares(rowsOf: ReadonlyArray<ReadonlyArray<number>>, count: number): Float64Array {
  const size = rowsOf.length;
  let shares: Float64Array = new Float64Array(size).fill(1 / size);
  const covered = (of: Float64Array): Float64Array => {
    const probability = new Float64Array(count);
    rowsOf.forEach((rows, j) => {
      for (const i of rows) probability[i]! += of[j]!;
    });
    return probability;
  };
  const objective = (of: Float64Array): number => {
    const total = of.reduce((sum, share) => sum + share, 0);
    return covered(of).reduce((sum, p) => sum + Math.log(p), 0) - count * total;
  };
  let settled = false;
  for (let round = 0; round < 5000; round++) {
    const probability = covered(shares);
    const slope = Float64Array.from(rowsOf, (rows) => rows.reduce((sum, i) => sum + 1 / probability[i]!, 0) - count);
    const worst = slope.reduce(
      (max, value, j) => Math.max(max, shares[j]! > 0 ? Math.abs(value) * Math.min(1, shares[j]! * size) : value),
      0,
    );
    settled = worst <= 1e-10 * count;
    if (settled) break;
    let next: Float64Array = shares.map((share, j) => share * (1 + slope[j]! / count));
    if (round % 5 === 4) next = newtonShares(rowsOf, probability, slope, shares, objective) ?? next;
    // a share that was driven to 0 but would raise the likelihood again gets a small start
    shares = next.map((share, j) => (share === 0 && slope[j]! > 1e-10 * count ? 1e-6 : share < 1e-14 ? 0 : share));
  }
  if (!settled) throw new RangeError("turnbullCurve: the shares did not settle in 5000 rounds");
  const total = shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share) => share / total);
}

function newtonShares(
  rowsOf: ReadonlyArray<ReadonlyArray<number>>,
  probability: Float64Array,
  slope: Float64Array,
  shares: Float64Array,
  objective: (of: Float64Array) => number,
): Float64Array | undefined {
  const moving = [...shares.keys()].filter((j) => shares[j]! > 0);
  const place = new Map(moving.map((j, k) => [j, k]));
  const curvature = zeroMatrix(moving.length, moving.length);
  const containing: number[][] = Array.from({ length: probability.length }, () => []);
  for (const j of moving) for (const i of rowsOf[j]!) containing[i]!.push(place.get(j)!);
  containing.forEach((inside, i) => {
    const weight = 1 / probability[i]! ** 2;
    for (const a of inside) for (const b of inside) curvature[a]![b]! += weight;
  });
  // shares that the likelihood cannot tell apart make this singular; a trace of the diagonal keeps the step finite
  for (let k = 0; k < moving.length; k++) curvature[k]![k]! *= 1 + 1e-12;
  const move = cholesky(curvature)?.solve(moving.map((j) => slope[j]!));
  if (move === undefined) return undefined;
  const before = objective(shares);
  for (let share = 1; share > 1e-4; share /= 2) {
    const trial = shares.slice();
    moving.forEach((j, k) => {
      trial[j] = Math.max(0, shares[j]! + share * move[k]!);
    });
    const after = objective(trial);
    if (Number.isFinite(after) && after >= before) return trial;
  }
  return undefined;
}

/**
 * Share still waiting over time when trays are looked at now and then: the nonparametric maximum-likelihood curve.
 * @throws RangeError if the sample is empty or an interval runs backwards, starts below 0 or ends at 0
 * @source Turnbull 1976, Journal of the Royal Statistical Society B 38(3):290-295; Gentleman and Geyer 1994, Biometrika
 *   81(3):618-623, for the check that the maximum is reached
 * @example turnbullCurve({ lower: [0, 1, 2], upper: [1, 2, Infinity] }).steps[0].share // 1 / 3
 */
export function turnbullCurve(sample: IntervalSample): TurnbullCurve {
  requireIntervalSample("turnbullCurve", sample);
  const count = sample.lower.length;
  const stretches = innermostStretches(sample);
  const shares = maximumLikelihoodShares(
    stretches.map((stretch) => stretch.rows),
    count,
  );
  const probability = new Float64Array(count);
  let survival = 1;
  const steps: TurnbullStep[] = [];
  stretches.forEach(({ from, to, rows }, j) => {
    for (const i of rows) probability[i]! += shares[j]!;
    survival = j === stretches.length - 1 ? 0 : survival - shares[j]!;
    if (shares[j]! > 0) steps.push({ from, to, share: shares[j]!, survival });
  });
  const crossing = steps.find((step) => step.survival <= 0.5 + 1e-12)!;
  return {
    observations: count,
    steps,
    median: { from: crossing.from, to: crossing.to },
    logLikelihood: probability.reduce((sum, p) => sum + Math.log(p), 0),
  };
}
