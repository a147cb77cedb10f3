import { addOuter, type Matrix, zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { solveGeneral } from "../linear-algebra/solve-general.ts";
import type { CovarianceMoments, RandomStructure } from "./covariance-moments.ts";
import type { NumberedFactor } from "./random-factor.ts";

/** More groups in all than this would take minutes: the work grows with the cube of the number of groups. */
const mostCrossedGroups = 1500;

/**
 * Random intercepts in any arrangement: crossed, partly crossed, three levels deep. The equations have one row per group.
 * @param columns fixed-effect columns followed by the response
 * @throws RangeError if there are more than `mostCrossedGroups` groups in all
 * @source Harville 1977, Journal of the American Statistical Association 72(358):320-338
 * @internal
 */
export function crossedGroupings(
  columns: ReadonlyArray<Float64Array>,
  factors: ReadonlyArray<NumberedFactor>,
): RandomStructure {
  const equations = groupEquations(columns, factors);
  return {
    count: columns[0]!.length,
    layout: "crossed groupings",
    moments: (ratios) => crossedMoments(equations, ratios),
  };
}

/** One equation a group, those of one factor together. */
interface GroupEquations {
  columns: ReadonlyArray<Float64Array>;
  factors: ReadonlyArray<NumberedFactor>;
  /** first equation of each factor */
  starts: number[];
  /** factor of each equation */
  owner: Int32Array;
  /** N = Z'Z */
  groupCross: Matrix;
  /** Z'X */
  groupColumns: Matrix;
}

function groupEquations(columns: ReadonlyArray<Float64Array>, factors: ReadonlyArray<NumberedFactor>): GroupEquations {
  const width = columns.length;
  const starts: number[] = [];
  let total = 0;
  for (const factor of factors) {
    starts.push(total);
    total += factor.groups;
  }
  if (total > mostCrossedGroups) {
    throw new RangeError(
      `fitMixedModel: crossed groupings may have at most ${mostCrossedGroups} groups in all; received ${total}`,
    );
  }
  const groupCross = zeroMatrix(total, total);
  const groupColumns = zeroMatrix(total, width);
  const row = new Float64Array(width);
  for (let i = 0; i < columns[0]!.length; i++) {
    for (let c = 0; c < width; c++) row[c] = columns[c]![i]!;
    for (let a = 0; a < factors.length; a++) {
      const groupA = starts[a]! + factors[a]!.index[i]!;
      for (let c = 0; c < width; c++) groupColumns[groupA]![c]! += row[c]!;
      for (let b = 0; b < factors.length; b++) groupCross[groupA]![starts[b]! + factors[b]!.index[i]!]! += 1;
    }
  }
  const owner = new Int32Array(total);
  factors.forEach((factor, f) => {
    owner.fill(f, starts[f]!, starts[f]! + factor.groups);
  });
  return { columns, factors, starts, owner, groupCross, groupColumns };
}

/** Solves (I + N D) [C, U] = [N, Z'X]: C = Z' H^-1 Z and U = Z' H^-1 X, with D the ratios. */
function solved({ owner, groupCross, groupColumns }: GroupEquations, ratios: ArrayLike<number>) {
  const left = groupCross.map((entries, g) => {
    const scaled = Float64Array.from(entries, (value, h) => value * ratios[owner[h]!]!);
    scaled[g]! += 1;
    return scaled;
  });
  const right = groupCross.map((entries, g) => Float64Array.of(...entries, ...groupColumns[g]!));
  const logDeterminant = solveGeneral(left, right);
  const rows = right.map((entries) => entries.slice(owner.length));
  return { logDeterminant, groupInverse: right, rows };
}

/** X' H^-1 X as (H^-1 X)'(H^-1 X) + sum of ratio * U'U: sums of squares only, so large ratios lose no digits. */
function crossProducts(
  { columns, factors, starts, owner }: GroupEquations,
  ratios: ArrayLike<number>,
  rows: Matrix,
): Matrix {
  const width = columns.length;
  const cross = zeroMatrix(width, width);
  const left = new Float64Array(width);
  for (let i = 0; i < columns[0]!.length; i++) {
    for (let c = 0; c < width; c++) left[c] = columns[c]![i]!;
    for (let a = 0; a < factors.length; a++) {
      const taken = rows[starts[a]! + factors[a]!.index[i]!]!;
      for (let c = 0; c < width; c++) left[c]! -= ratios[a]! * taken[c]!;
    }
    addOuter(cross, 1, left, left);
  }
  for (let g = 0; g < owner.length; g++) addOuter(cross, ratios[owner[g]!]!, rows[g]!, rows[g]!);
  return cross;
}

function crossedMoments(equations: GroupEquations, ratios: ArrayLike<number>): CovarianceMoments {
  const { columns, factors, owner } = equations;
  const width = columns.length;
  const { logDeterminant, groupInverse, rows } = solved(equations, ratios);
  const size = factors.length;
  const blocks = (): Matrix[] => factors.map(() => zeroMatrix(width, width));
  const once = blocks();
  const twice = factors.map(blocks);
  const trace = new Array<number>(size).fill(0);
  const traceTwice = factors.map(() => new Array<number>(size).fill(0));
  const cross = crossProducts(equations, ratios, rows);
  for (let g = 0; g < owner.length; g++) {
    const a = owner[g]!;
    const entries = groupInverse[g]!;
    trace[a]! += entries[g]!;
    addOuter(once[a]!, 1, rows[g]!, rows[g]!);
    const spread = factors.map(() => new Float64Array(width));
    for (let h = 0; h < owner.length; h++) {
      const b = owner[h]!;
      traceTwice[a]![b]! += entries[h]! * entries[h]!;
      for (let c = 0; c < width; c++) spread[b]![c]! += entries[h]! * rows[h]![c]!;
    }
    for (let b = 0; b < size; b++) {
      addOuter(twice[a]![b]!, 0.5, rows[g]!, spread[b]!);
      addOuter(twice[a]![b]!, 0.5, spread[b]!, rows[g]!);
    }
  }
  return { logDeterminant, cross, once, twice, trace, traceTwice };
}
