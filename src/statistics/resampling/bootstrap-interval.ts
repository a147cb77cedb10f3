import { normalCdf, normalQuantile } from "../distributions/normal.ts";
import { power } from "../power.ts";
import { seededRandom } from "../random/seeded-random.ts";
import { requireCount, requireOpenProbability } from "../require-numbers.ts";
import { drawRows, type ResamplingPlan, resamplingPlan } from "./resampling-plan.ts";

/** What a bootstrap is made from. */
export interface BootstrapInput<Row> {
  /** one entry per row of the data, of any kind */
  rows: ReadonlyArray<Row>;
  /** the figure wanted, from any such rows; it may repeat rows and, with clusters of unequal size, differ in their number */
  statistic: (sample: ReadonlyArray<Row>) => number;
  /** of the random stream */
  seed: number;
  /** cluster of each row (jar, cook), when whole clusters are drawn; each row on its own unless stated */
  clusters?: ReadonlyArray<string>;
  /** block or arm of each row, when draws stay within it */
  strata?: ReadonlyArray<string>;
  /** random samples; 4999 unless stated */
  draws?: number;
  /** of the interval; 0.95 unless stated */
  level?: number;
  /** "bca" (bias-corrected and accelerated, the default) or "percentile" */
  method?: "bca" | "percentile";
}

/** A bootstrap interval. */
export interface BootstrapInterval {
  /** the statistic of the data as they are */
  estimate: number;
  lower: number;
  upper: number;
  /** standard deviation of the statistic over the draws */
  standardError: number;
  level: number;
  method: "bca" | "percentile";
  /** samples drawn */
  draws: number;
  /** draws in which the statistic did not exist (a slope where all amounts were alike); left out of the interval */
  undefinedDraws: number;
  seed: number;
  /** rows or clusters drawn from */
  units: number;
  /** normal deviate of the share of draws below the estimate; 0 for "percentile" */
  biasCorrection: number;
  /** how the standard error changes with the value, from leaving out each unit once; 0 for "percentile" */
  acceleration: number;
}

/** With more undefined draws than this share the interval would describe the lucky samples only. */
const mostUndefined = 0.05;

/**
 * Bootstrap interval of any statistic.
 * @param input see {@link BootstrapInput}; with few units (below about 8) any such interval is too short
 * @returns limits that always lie within the range of the draws
 * @throws RangeError if no stratum has two units, a column's length differs, the statistic of the data is not finite, more
 *   than 1 draw in 20 has no finite statistic, or, for "bca", all draws lie on one side of the estimate
 * @source Efron 1987, Journal of the American Statistical Association 82(397):171-185; strata: Davison and Hinkley 1997,
 *   Bootstrap Methods and Their Application, chapter 5
 * @example bootstrapInterval({ rows: [3, 5, 4, 8, 6], statistic: (s) => s.reduce((a, b) => a + b) / s.length, seed: 1 }).estimate // 5.2
 */
export function bootstrapInterval<Row>(input: BootstrapInput<Row>): BootstrapInterval {
  const routine = "bootstrapInterval";
  const { rows, statistic, seed, clusters, strata, draws = 4999, level = 0.95, method = "bca" } = input;
  requireCount(routine, "draws", draws, 100);
  requireOpenProbability(routine, "level", level);
  const plan = resamplingPlan(routine, rows.length, clusters, strata);
  const estimate = statistic(rows);
  if (!Number.isFinite(estimate)) {
    throw new RangeError(`${routine}: the statistic of the data must be a finite number; received ${estimate}`);
  }
  const random = seededRandom(seed);
  const values = new Float64Array(draws);
  const drawn: number[] = [];
  const sample: Row[] = [];
  let count = 0;
  for (let draw = 0; draw < draws; draw++) {
    drawRows(plan, random, drawn);
    if (sample.length > drawn.length) sample.length = drawn.length;
    for (let i = 0; i < drawn.length; i++) sample[i] = rows[drawn[i]!]!;
    const value = statistic(sample);
    if (Number.isFinite(value)) values[count++] = value;
  }
  if (draws - count > mostUndefined * draws) {
    throw new RangeError(
      `${routine}: the statistic must exist in nearly every random sample; received no finite value in ${draws - count} of ${draws}`,
    );
  }
  const ordered = values.subarray(0, count).sort();
  const tail = (1 - level) / 2;
  let [low, high, biasCorrection, acceleration] = [tail, 1 - tail, 0, 0];
  if (method === "bca" && ordered[0] !== ordered[count - 1]) {
    biasCorrection = biasOf(routine, ordered, estimate);
    acceleration = accelerationOf(routine, plan, rows, statistic);
    const shift = (p: number): number => {
      const z = biasCorrection + normalQuantile(p);
      return normalCdf(biasCorrection + z / Math.max(1 - acceleration * z, 1e-9));
    };
    [low, high] = [shift(tail), shift(1 - tail)];
  }
  return {
    estimate,
    lower: quantileOf(ordered, low),
    upper: quantileOf(ordered, high),
    standardError: standardDeviation(ordered),
    level,
    method,
    draws,
    undefinedDraws: draws - count,
    seed,
    units: plan.units,
    biasCorrection,
    acceleration,
  };
}

function biasOf(routine: string, ordered: Float64Array, estimate: number): number {
  let below = 0;
  for (const value of ordered) below += value < estimate ? 1 : value === estimate ? 0.5 : 0;
  if (below === 0 || below === ordered.length) {
    throw new RangeError(
      `${routine}: draws must fall on both sides of the estimate for "bca"; received all on one side of ${estimate}, use "percentile"`,
    );
  }
  return normalQuantile(below / ordered.length);
}

/** With more units than this in a stratum they are left out by the group: the cubes and squares of the influences still add up. */
const mostLeftOut = 500;

/** From the statistic with each unit, or group of units, left out in turn. */
function accelerationOf<Row>(
  routine: string,
  plan: ResamplingPlan,
  rows: ReadonlyArray<Row>,
  statistic: (sample: ReadonlyArray<Row>) => number,
): number {
  let cubes = 0;
  let squares = 0;
  for (const units of plan.strata) {
    if (units.length < 2) continue;
    const groups = Math.min(units.length, mostLeftOut);
    const groupOf = new Int32Array(rows.length).fill(-1);
    units.forEach((unit, i) => {
      // neighbouring rows go to different groups
      for (const row of unit) groupOf[row] = i % groups;
    });
    const without = Array.from({ length: groups }, (_, left) => {
      const value = statistic(rows.filter((_, row) => groupOf[row] !== left));
      if (!Number.isFinite(value)) {
        throw new RangeError(
          `${routine}: the statistic must exist with any one unit left out for "bca"; received ${value}, use "percentile"`,
        );
      }
      return value;
    });
    const mean = without.reduce((sum, value) => sum + value, 0) / without.length;
    for (const value of without) {
      const influence = ((without.length - 1) * (mean - value)) / without.length;
      cubes += power(influence, 3);
      squares += influence ** 2;
    }
  }
  return squares === 0 ? 0 : cubes / 6 / power(squares, 1.5);
}

/** Value below which a share p of the draws lies, the i-th smallest of n standing at i / (n + 1). */
function quantileOf(ordered: Float64Array, p: number): number {
  const place = Math.min(Math.max(p * (ordered.length + 1) - 1, 0), ordered.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, ordered.length - 1);
  return ordered[below]! + (place - below) * (ordered[above]! - ordered[below]!);
}

function standardDeviation(values: Float64Array): number {
  const first = values[0]!;
  let sum = 0;
  for (const value of values) sum += value - first;
  const mean = sum / values.length;
  let squares = 0;
  for (const value of values) squares += (value - first - mean) ** 2;
  return Math.sqrt(squares / (values.length - 1));
}
