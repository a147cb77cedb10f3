import { normalCdf, normalQuantile } from "../distributions/normal.ts";
import { power } from "../power.ts";
import { seededRandom } from "../random/seeded-random.ts";
import { requireCount, requireOpenProbability } from "../require-numbers.ts";

/** How limits are taken from the draws: bias-corrected and accelerated, or their plain quantiles. */
export type BootstrapMethod = "bca" | "percentile";

/** What a bootstrap is made from. */
export interface BootstrapInput<Row> {
  /** the independent units of the data, of any kind */
  rows: ReadonlyArray<Row>;
  /** the figure wanted, from any such rows; it may repeat rows */
  statistic: (sample: ReadonlyArray<Row>) => number;
  /** of the random stream */
  seed: number;
  /** random samples; 4999 unless stated */
  draws?: number;
  /** of the interval; 0.95 unless stated */
  level?: number;
  /** "bca" unless stated */
  method?: BootstrapMethod;
}

/** With more undefined draws than this share the interval would describe the lucky samples only. */
const mostUndefined = 0.05;

/**
 * Bootstrap interval of any statistic.
 * @param input with few rows (below about 8) any such interval is too short
 * @returns limits that always lie within the range of the draws
 * @throws RangeError if there are fewer than two rows, the statistic of the data is not finite, more than 1 draw in 20 has no
 *   finite statistic, or, for "bca", all draws lie on one side of the estimate
 * @source Efron 1987, Journal of the American Statistical Association 82(397):171-185
 * @example bootstrapInterval({ rows: [4, 4, 4], statistic: (s) => s.reduce((a, b) => a + b) / s.length, seed: 1 }) // { lower: 4, upper: 4 }
 */
export function bootstrapInterval<Row>(input: BootstrapInput<Row>): { lower: number; upper: number } {
  const routine = "bootstrapInterval";
  const { rows, statistic, seed, draws = 4999, level = 0.95, method = "bca" } = input;
  requireCount(routine, "draws", draws, 100);
  requireOpenProbability(routine, "level", level);
  if (rows.length < 2) throw new RangeError(`${routine}: at least 2 rows are needed; received ${rows.length}`);
  const estimate = statistic(rows);
  if (!Number.isFinite(estimate)) {
    throw new RangeError(`${routine}: the statistic of the data must be a finite number; received ${estimate}`);
  }
  const random = seededRandom(seed);
  const values = new Float64Array(draws);
  const sample = [...rows];
  let count = 0;
  for (let draw = 0; draw < draws; draw++) {
    for (let i = 0; i < sample.length; i++) sample[i] = rows[random.integer(rows.length)]!;
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
  if (method === "percentile" || ordered[0] === ordered[count - 1])
    return { lower: quantileOf(ordered, tail), upper: quantileOf(ordered, 1 - tail) };
  const bias = biasOf(routine, ordered, estimate);
  const acceleration = accelerationOf(routine, rows, statistic);
  const shift = (p: number): number => {
    const z = bias + normalQuantile(p);
    return normalCdf(bias + z / Math.max(1 - acceleration * z, 1e-9));
  };
  return { lower: quantileOf(ordered, shift(tail)), upper: quantileOf(ordered, shift(1 - tail)) };
}

/** Normal deviate of the share of draws below the estimate. */
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

/** With more rows than this they are left out by the group: the cubes and squares of the influences still add up. */
const mostLeftOut = 500;

/** How the standard error changes with the value, from the statistic with each row, or group of rows, left out in turn. */
function accelerationOf<Row>(
  routine: string,
  rows: ReadonlyArray<Row>,
  statistic: (sample: ReadonlyArray<Row>) => number,
): number {
  // neighbouring rows go to different groups
  const groups = Math.min(rows.length, mostLeftOut);
  const without = Array.from({ length: groups }, (_, left) => {
    const value = statistic(rows.filter((__, row) => row % groups !== left));
    if (!Number.isFinite(value)) {
      throw new RangeError(
        `${routine}: the statistic must exist with any one row left out for "bca"; received ${value}, use "percentile"`,
      );
    }
    return value;
  });
  const mean = without.reduce((sum, value) => sum + value, 0) / without.length;
  let [cubes, squares] = [0, 0];
  for (const value of without) {
    const influence = ((without.length - 1) * (mean - value)) / without.length;
    cubes += power(influence, 3);
    squares += influence ** 2;
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
