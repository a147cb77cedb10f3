import { pivotedCholesky } from "../../statistics/linear-algebra/pivoted-cholesky.ts";
import { type CellSums, cellSums, type WeighedCells } from "./cell-sums.ts";
import { type CurveShape, curveShapes } from "./curve-shapes.ts";
import type { DoseGrid } from "./dose-grid.ts";

/** One way things may be: how strongly cooks differ, one shape, one size of it. */
export interface YieldComponent {
  /** the first coefficients' factor, shared by the shapes */
  block: FactoredBlock;
  shape: CurveShape;
  /** products of the basis with the shape, from which the last row of the triangular factor comes */
  cross: Float64Array;
  /** end of that row, and of the solved right side: those of the shape's own coefficient */
  diagonal: number;
  solved: number;
  rss: number;
  logWeight: number;
  /** its share in the mixture */
  weight: number;
}

/** Coefficients of the smooth departures and the mean, factored once per size and variance ratios. */
export interface FactoredBlock {
  cookRatio: number;
  cellRatio: number;
  amplitude: number;
  /** lower triangle, `size` columns a row */
  factor: Float64Array;
  solved: Float64Array;
  logDeterminant: number;
}

/** All components, and what turns coefficients into curves on the grid. */
export interface YieldMixture {
  cells: WeighedCells;
  components: YieldComponent[];
  /** departures and mean: `size` columns per grid dose, at amplitude 1; the mean's column is the last */
  size: number;
  basis: Float64Array;
}

/** sizes of the curve's rise in tray standard deviations, and how likely each is beforehand */
const amplitudes = [
  [0.5, 0.2],
  [1, 0.3],
  [2, 0.3],
  [4, 0.2],
] as const;
const cookRatios = [
  [0.1, 1 / 3],
  [1, 1 / 3],
  [4, 1 / 3],
] as const;
const cellRatios = [
  [0, 0.2],
  [0.1, 0.25],
  [0.3, 0.25],
  [1, 0.3],
] as const;
const departure = { variance: 0.09, reach: 0.5, columns: 8 };
/** standard deviation of the flat mean, in tray standard deviations */
const flatMean = 100;

/** Smooth departures from the shapes over the grid, as few columns; distances are shares of the range tried. */
function departures({ doses, first, last }: DoseGrid): { columns: Float64Array; rank: number } {
  const reach = departure.reach * (doses[last]! - doses[first]!);
  const covariance = (i: number, j: number): number =>
    departure.variance * Math.exp(-(((doses[i]! - doses[j]!) / reach) ** 2) / 2);
  return pivotedCholesky(doses.length, covariance, departure.columns, 1e-12);
}

/**
 * The yield of good trays over dose as a mixture: z = m + curve(dose) + cook + cook:dose + error, the curve A times (one
 * shape + a smooth departure), over all shapes, sizes A and ratios of variances, each weighted by how well it explains the
 * weighed trays. Coefficients have a standard normal prior in tray standard deviations, so every component is a small
 * triangular factor.
 * @source likelihood of error contrasts: Harville 1974, Biometrika 61(2):383-385; curve plus smooth departure after the
 *   idea of O'Hagan 1978, JRSS B 40(1):1-42; averaging: Hoeting, Madigan, Raftery and Volinsky 1999, Statistical Science
 *   14(4):382-417; the constants are this project's own
 */
export function yieldMixture(cells: WeighedCells, tested: ReadonlyArray<number>, grid: DoseGrid): YieldMixture {
  const { columns, rank } = departures(grid);
  const size = rank + 1;
  const basis = new Float64Array(grid.doses.length * size);
  grid.doses.forEach((_, at) => {
    for (let j = 0; j < rank; j++) basis[at * size + j] = columns[at * rank + j]!;
    basis[at * size + rank] = flatMean;
  });
  const shapes = curveShapes(tested, grid.doses);
  const components: YieldComponent[] = [];
  const row = new Float64Array(size);
  for (const [cookRatio, cookPrior] of cells.cooks === 1 ? ([[0, 1]] as const) : cookRatios) {
    for (const [cellRatio, cellPrior] of !cells.replicated ? ([[0, 1]] as const) : cellRatios) {
      const sums = cellSums(cells, cookRatio, cellRatio);
      const parts = projections(sums, shapes, basis, size, grid.tested);
      for (const [amplitude, sizePrior] of amplitudes) {
        const block = factoredBlock(parts, size, amplitude, cookRatio, cellRatio);
        const prior = Math.log(cookPrior * cellPrior * sizePrior) - sums.logDeterminant / 2;
        shapes.forEach((shape, at) => {
          components.push(componentOf(cells, sums, parts, block, shape, at, prior, row));
        });
      }
    }
  }
  shareOut(components);
  return { cells, components, size, basis };
}

/** Products of the tested doses' rows with the data, per set of variance ratios. */
interface Projections {
  /** basis' Q basis, basis' b */
  cross: Float64Array;
  right: Float64Array;
  /** per shape: basis' Q h, h' Q h, h' b */
  shapeCross: Float64Array[];
  shapeSquare: number[];
  shapeRight: number[];
}

function projections(
  { precision, weighted }: CellSums,
  shapes: ReadonlyArray<CurveShape>,
  basis: Float64Array,
  size: number,
  tested: ReadonlyArray<number>,
): Projections {
  const doses = tested.length;
  // Q basis, doses x size
  const product = new Float64Array(doses * size);
  for (let i = 0; i < doses; i++) {
    for (let j = 0; j < doses; j++) {
      const q = precision[i * doses + j]!;
      const row = tested[j]! * size;
      for (let k = 0; k < size; k++) product[i * size + k]! += q * basis[row + k]!;
    }
  }
  const cross = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (let i = 0; i < doses; i++) {
    const row = tested[i]! * size;
    for (let k = 0; k < size; k++) {
      right[k]! += basis[row + k]! * weighted[i]!;
      for (let l = 0; l <= k; l++) cross[k * size + l]! += basis[row + k]! * product[i * size + l]!;
    }
  }
  const shapeCross = shapes.map(({ values }) => {
    const own = new Float64Array(size);
    for (let i = 0; i < doses; i++) {
      const h = values[tested[i]!]!;
      for (let k = 0; k < size; k++) own[k]! += h * product[i * size + k]!;
    }
    return own;
  });
  const shapeSquare = shapes.map(({ values }) => {
    let sum = 0;
    for (let i = 0; i < doses; i++) {
      for (let j = 0; j < doses; j++) sum += values[tested[i]!]! * precision[i * doses + j]! * values[tested[j]!]!;
    }
    return sum;
  });
  const shapeRight = shapes.map(({ values }) => tested.reduce((sum, at, i) => sum + values[at]! * weighted[i]!, 0));
  return { cross, right, shapeCross, shapeSquare, shapeRight };
}

/** Triangular factor of I + S basis'Q basis S, S being the amplitude for departures and 1 for the mean. */
function factoredBlock(
  { cross, right }: Projections,
  size: number,
  amplitude: number,
  cookRatio: number,
  cellRatio: number,
): FactoredBlock {
  const factor = new Float64Array(size * size);
  const solved = new Float64Array(size);
  let logDeterminant = 0;
  const scale = (k: number): number => (k === size - 1 ? 1 : amplitude);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = (i === j ? 1 : 0) + scale(i) * scale(j) * cross[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= factor[i * size + k]! * factor[j * size + k]!;
      factor[i * size + j] = i === j ? Math.sqrt(sum) : sum / factor[j * size + j]!;
    }
    let sum = scale(i) * right[i]!;
    for (let k = 0; k < i; k++) sum -= factor[i * size + k]! * solved[k]!;
    solved[i] = sum / factor[i * size + i]!;
    logDeterminant += 2 * Math.log(factor[i * size + i]!);
  }
  return { cookRatio, cellRatio, amplitude, factor, solved, logDeterminant };
}

/** The shape's row of the triangular factor, all but its diagonal, written to `row`. */
export function shapeRow({ factor, amplitude }: FactoredBlock, cross: Float64Array, row: Float64Array): void {
  const size = cross.length;
  for (let i = 0; i < size; i++) {
    let sum = amplitude * (i === size - 1 ? 1 : amplitude) * cross[i]!;
    for (let k = 0; k < i; k++) sum -= factor[i * size + k]! * row[k]!;
    row[i] = sum / factor[i * size + i]!;
  }
}

function componentOf(
  { within, supposed, degreesOfFreedom }: WeighedCells,
  { square }: CellSums,
  { shapeCross, shapeSquare, shapeRight }: Projections,
  block: FactoredBlock,
  shape: CurveShape,
  at: number,
  prior: number,
  row: Float64Array,
): YieldComponent {
  const { solved, amplitude } = block;
  const cross = shapeCross[at]!;
  shapeRow(block, cross, row);
  let diagonal = 1 + amplitude * amplitude * shapeSquare[at]!;
  let right = amplitude * shapeRight[at]!;
  let explained = 0;
  for (let i = 0; i < row.length; i++) {
    diagonal -= row[i]! * row[i]!;
    right -= row[i]! * solved[i]!;
    explained += solved[i]! * solved[i]!;
  }
  // the diagonal is at least 1 by construction; less is rounding
  diagonal = Math.sqrt(Math.max(1, diagonal));
  const last = right / diagonal;
  const rss = within + supposed + Math.max(0, square - explained - last * last);
  const logWeight =
    Math.log(shape.weight) +
    prior -
    block.logDeterminant / 2 -
    Math.log(diagonal) -
    (degreesOfFreedom / 2) * Math.log(rss);
  return { block, shape, cross, diagonal, solved: last, rss, logWeight, weight: 0 };
}

function shareOut(components: YieldComponent[]): void {
  let most = Number.NEGATIVE_INFINITY;
  for (const { logWeight } of components) if (logWeight > most) most = logWeight;
  let total = 0;
  for (const one of components) {
    // where the weights do not vary every rss is 0 and no component is likelier than another
    one.weight = most === Number.POSITIVE_INFINITY ? 1 : Math.exp(one.logWeight - most);
    total += one.weight;
  }
  for (const one of components) one.weight /= total;
}
