import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { type SeededRandom, seededRandom } from "../random/seeded-random.ts";
import { requireCount } from "../require-numbers.ts";
import { type CurveData, mixColumn, offsetCount } from "./curve-data.ts";
import type { CurveForm } from "./curve-form.ts";
import { curveProblem, fillOffsetColumns } from "./curve-problem.ts";
import { dosesBesideBlocks } from "./doses-beside-blocks.ts";
import type { CurveEstimate } from "./estimate-curve.ts";
import { levenbergMarquardt } from "./levenberg-marquardt.ts";
import { type ReplicateCells, replicateCells } from "./replicate-cells.ts";

/** What was drawn again in a bootstrap. */
export type Resampled = "trays within dose and block" | "trays within dose" | "residuals of the curve";

export interface CurveBootstrapInput {
  form: CurveForm;
  data: CurveData;
  estimate: CurveEstimate;
  replicates: number;
  seed: number;
}

/**
 * Refits a curve to resampled trays. Trays are drawn with replacement among those of the same dose (and block), their
 * deviations widened by sqrt(m / (m - 1)) so that cells of m trays do not understate the scatter. Where a cell holds one
 * tray only, residuals of the curve (widened by sqrt(n / (n - p))) are drawn instead.
 * @param visit is given the form's parameters of each refit, in an array that is used again for the next
 * @returns what was resampled and how many refits did not settle (their last values are visited all the same)
 * @throws RangeError if `replicates` is not a whole number of 1 or more
 * @source Davison and Hinkley 1997, Bootstrap Methods and Their Application, chapters 3 and 7; widening: Rao and Wu 1988,
 *   Journal of the American Statistical Association 83(401):231-241
 * @example
 * const data = curveData("fitCurve", { doses: [3, 3, 6, 6], responses: [5, 6, 9, 8] });
 * visitBootstrapRefits({ form: straightLine, data, estimate: estimateCurve(straightLine, data), replicates: 20, seed: 1 }, () => {}).unsettled // 0
 */
export function visitBootstrapRefits(
  input: CurveBootstrapInput,
  visit: (parameters: Float64Array) => void,
): { resampled: Resampled; unsettled: number } {
  requireCount("visitBootstrapRefits", "replicates", input.replicates, 1);
  const { form, data, estimate, replicates } = input;
  const cells = replicateCells(data);
  const byTray = cells.members.every((rows) => rows.length >= 2);
  const means = cells.means.responses.slice();
  const draw = byTray ? trayDraws(data, cells) : residualDraws(form, data, cells, estimate);
  const beside = dosesBesideBlocks(cells.means);
  const drawn: CurveData = { ...(beside?.data ?? cells.means), responses: beside ? beside.data.responses : means };
  const refit = refitter(form, drawn, estimate);
  const random = seededRandom(input.seed);
  let unsettled = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    draw(random, means);
    beside?.meansOf(means, drawn.responses);
    const { parameters, settled } = refit();
    if (!settled) unsettled++;
    visit(parameters);
  }
  const resampled = !byTray
    ? "residuals of the curve"
    : data.blockNames.length > 0
      ? "trays within dose and block"
      : "trays within dose";
  return { resampled, unsettled };
}

/**
 * Percentile intervals of the form's parameters.
 * @internal
 */
export function bootstrapCurve(input: CurveBootstrapInput & { level: number }): {
  intervals: { low: number; high: number }[];
  resampled: Resampled;
  unsettled: number;
} {
  const count = input.form.parameters.length;
  const columns = Array.from({ length: count }, () => new Float64Array(input.replicates));
  let row = 0;
  const outcome = visitBootstrapRefits(input, (parameters) => {
    for (let j = 0; j < count; j++) columns[j]![row] = parameters[j]!;
    row++;
  });
  return { ...outcome, intervals: columns.map((column) => percentileInterval(column, input.level)) };
}

/**
 * The middle `level` of the values, by linear interpolation between order statistics (quantile type 7). Sorts in place.
 * @example percentileInterval(Float64Array.of(5, 1, 2, 3, 4), 0.5) // { low: 2, high: 4 }
 */
export function percentileInterval(values: Float64Array, level: number): { low: number; high: number } {
  values.sort();
  const at = (share: number) => {
    const place = share * (values.length - 1);
    const below = Math.floor(place);
    const [a, b] = [values[below]!, values[Math.min(below + 1, values.length - 1)]!];
    return a + (place - below) * (b - a);
  };
  return { low: at((1 - level) / 2), high: at((1 + level) / 2) };
}

type Draw = (random: SeededRandom, means: Float64Array) => void;

/** Cell means of trays drawn within their cell. */
function trayDraws(data: CurveData, cells: ReplicateCells): Draw {
  const original = cells.means.responses.slice();
  const weights = Float64Array.from(data.rootWeights, (root) => root * root);
  const even = weights.every((weight) => weight === weights[0]);
  const deviations = cells.members.map((rows, cell) => {
    const widened = Math.sqrt(rows.length / (rows.length - 1));
    return Float64Array.from(rows, (i) => widened * (data.responses[i]! - original[cell]!));
  });
  return (random, means) => {
    for (let cell = 0; cell < deviations.length; cell++) {
      const values = deviations[cell]!;
      const rows = cells.members[cell]!;
      let sum = 0;
      let total = 0;
      for (let k = 0; k < values.length; k++) {
        // the weight belongs to the place in the trial, the deviation to the tray drawn for it
        const weight = even ? 1 : weights[rows[k]!]!;
        sum += weight * values[random.integer(values.length)]!;
        total += weight;
      }
      means[cell] = original[cell]! + sum / total;
    }
  };
}

/** Cell means of the fitted curve plus residuals drawn from all of them. */
function residualDraws(form: CurveForm, data: CurveData, cells: ReplicateCells, estimate: CurveEstimate): Draw {
  const n = data.doses.length;
  const problem = curveProblem(form, data);
  const residuals = new Float64Array(n);
  problem.evaluate(estimate.parameters, residuals);
  const centre = residuals.reduce((sum, value) => sum + value, 0) / n;
  const widened = Math.sqrt(n / (n - problem.parameterCount));
  const pool = residuals.map((value) => widened * (value - centre));
  const fitted = Float64Array.from(data.responses, (y, i) => y - residuals[i]! / data.rootWeights[i]!);
  return (random, means) => {
    cells.members.forEach((rows, cell) => {
      let sum = 0;
      let total = 0;
      for (const i of rows) {
        const root = data.rootWeights[i]!;
        sum += root * (root * fitted[i]! + pool[random.integer(n)]!);
        total += root * root;
      }
      means[cell] = sum / total;
    });
  };
}

type Refit = () => { parameters: Float64Array; settled: boolean };

/** How a form is fitted again: by one matrix for linear forms, directly for cornered ones, by a search from the estimate otherwise. */
function refitter(form: CurveForm, drawn: CurveData, estimate: CurveEstimate): Refit {
  if (form.linear) return linearRefitter(form, drawn);
  const problem = curveProblem(form, drawn);
  const start = estimate.parameters.subarray(0, problem.parameterCount);
  return () => {
    if (form.cornered && form.solve) {
      const direct = form.solve(drawn);
      return direct
        ? { parameters: Float64Array.from(direct.parameters), settled: true }
        : { parameters: estimate.parameters, settled: false };
    }
    const found = levenbergMarquardt(problem, start, false, 100);
    const settled = found.converged && form.objection?.(found.parameters, drawn, false) === undefined;
    return { parameters: found.parameters, settled };
  };
}

/** The design does not change from refit to refit, so each is one product with the same matrix. */
function linearRefitter(form: CurveForm, drawn: CurveData): Refit {
  const rows = drawn.doses.length;
  const count = form.parameters.length;
  const total = count + offsetCount(drawn);
  const matrix: Float64Array[] = Array.from({ length: count }, () => new Float64Array(rows));
  const slope = new Float64Array(count);
  const columns = Array.from({ length: total }, () => new Float64Array(rows));
  for (let r = 0; r < rows; r++) {
    form.gradient(drawn.doses[r]!, slope, slope);
    for (let j = 0; j < count; j++) columns[j]![r] = drawn.rootWeights[r]! * slope[j]!;
  }
  fillOffsetColumns(drawn, columns, count);
  if (drawn.correlated) for (const column of columns) mixColumn(drawn.correlated, column);
  const factor = orthogonalFactor(ordinary, columns, 0);
  for (let i = 0; i < rows; i++) {
    const unit = new Float64Array(rows);
    unit[i] = drawn.rootWeights[i]!;
    if (drawn.correlated) mixColumn(drawn.correlated, unit);
    const solution = factor.solve(factor.rotate(unit));
    for (let j = 0; j < count; j++) matrix[j]![i] = solution[j]!;
  }
  const parameters = new Float64Array(count);
  return () => {
    for (let j = 0; j < count; j++) {
      const row = matrix[j]!;
      let sum = 0;
      for (let i = 0; i < rows; i++) sum += row[i]! * drawn.responses[i]!;
      parameters[j] = sum;
    }
    return { parameters, settled: true };
  };
}
