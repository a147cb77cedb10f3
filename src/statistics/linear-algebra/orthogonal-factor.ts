import { add, type DoubleDouble, divide, multiply, negate, subtract, toNumber, zero } from "./double-double.ts";
import {
  columnLength,
  copyColumn,
  type DoubleDoubleColumn,
  dotProduct,
  entry,
  setEntry,
  subtractMultiple,
} from "./double-double-column.ts";

/** A column of a design that the columns before it already determine. */
export interface DependentColumn {
  /** its position among the columns given */
  column: number;
  /** what multiple of each kept column (in the order of `kept`) it is the sum of */
  multiples: DoubleDouble[];
}

/** A tall matrix as rotation times triangle, in double-double arithmetic. */
export interface OrthogonalFactor {
  rows: number;
  /** positions of the independent columns, in the order given */
  kept: number[];
  dependent: DependentColumn[];
  /** entry [i][j] of the triangle R over the kept columns, 0 below the diagonal */
  upper: DoubleDouble[][];
  /** the first `kept.length` entries of every column given, rotated */
  rotatedColumns: DoubleDouble[][];
  /** a copy of a column as long as `rows`, turned by the rotation: its first entries belong to the kept columns */
  rotate(column: DoubleDoubleColumn): DoubleDoubleColumn;
  /** the inverse of `rotate` */
  rotateBack(column: DoubleDoubleColumn): DoubleDoubleColumn;
}

/** A column that keeps less than this share of its length once the columns before it are removed is called dependent. */
const collinearityTolerance = 1e-13;

interface Reflection {
  direction: DoubleDoubleColumn;
  /** 2 / |direction|² */
  scale: DoubleDouble;
}

/**
 * Householder triangularisation that keeps the columns in the order given and sets aside each one that depends on those before it.
 *
 * With 32 digits carried, the only noise in a column is the rounding it arrived with (1 part in 10^16), so dependence can be
 * told from bad conditioning: a tenth-degree polynomial is still independent, a copied or summed column is not.
 * @param columns equally long
 * @source Golub and Van Loan, Matrix Computations, sections 5.2 and 5.4 (from memory)
 */
export function orthogonalFactor(columns: ReadonlyArray<DoubleDoubleColumn>): OrthogonalFactor {
  const rows = columns[0]?.high.length ?? 0;
  const working = columns.map(copyColumn);
  const reflections: Reflection[] = [];
  const kept: number[] = [];
  const setAside: number[] = [];
  for (let j = 0; j < columns.length; j++) {
    const column = working[j]!;
    const from = kept.length;
    const whole = toNumber(columnLength(columns[j]!));
    const left = from < rows ? columnLength(column, from) : zero;
    if (!(toNumber(left) > collinearityTolerance * whole)) {
      setAside.push(j);
      continue;
    }
    const reflection = reflectionOf(column, from, left);
    for (let later = j; later < columns.length; later++) reflect(reflection, working[later]!, from);
    reflections.push(reflection);
    kept.push(j);
  }
  const rank = kept.length;
  // what a column that was set aside has left below the rows of the columns before it is rounding
  const rotatedColumns = working.map((column) => Array.from({ length: rank }, (_, i) => entry(column, i)));
  for (const j of setAside) {
    const before = kept.filter((position) => position < j).length;
    for (let i = before; i < rank; i++) rotatedColumns[j]![i] = zero;
  }
  const upper = Array.from({ length: rank }, (_, i) =>
    kept.map((position, j) => (j >= i ? rotatedColumns[position]![i]! : zero)),
  );
  return {
    rows,
    kept,
    upper,
    rotatedColumns,
    dependent: setAside.map((column) => ({ column, multiples: solveUpper(upper, rotatedColumns[column]!) })),
    rotate: (column) => {
      const turned = copyColumn(column);
      for (let k = 0; k < rank; k++) reflect(reflections[k]!, turned, k);
      return turned;
    },
    rotateBack: (column) => {
      const turned = copyColumn(column);
      // a reflection leaves a column alone that is 0 from its own row on
      let last = rows - 1;
      while (last > 0 && column.high[last] === 0) last--;
      for (let k = Math.min(rank - 1, last); k >= 0; k--) reflect(reflections[k]!, turned, k);
      return turned;
    },
  };
}

function reflectionOf(column: DoubleDoubleColumn, from: number, length: DoubleDouble): Reflection {
  const leading = entry(column, from);
  const diagonal = leading.high > 0 ? negate(length) : length;
  const direction = copyColumn(column);
  direction.high.fill(0, 0, from);
  direction.low.fill(0, 0, from);
  const shifted = subtract(leading, diagonal);
  setEntry(direction, from, shifted);
  return { direction, scale: divide({ high: 1, low: 0 }, multiply(negate(diagonal), shifted)) };
}

function reflect(reflection: Reflection, column: DoubleDoubleColumn, from: number): void {
  const factor = multiply(dotProduct(reflection.direction, column, from), reflection.scale);
  subtractMultiple(column, factor, reflection.direction, from);
}

/** Solves R x = v for the triangle of a factor. */
export function solveUpper(upper: ReadonlyArray<DoubleDouble[]>, right: ReadonlyArray<DoubleDouble>): DoubleDouble[] {
  const solution: DoubleDouble[] = new Array(upper.length);
  for (let i = upper.length - 1; i >= 0; i--) {
    let sum = right[i]!;
    for (let j = i + 1; j < upper.length; j++) sum = subtract(sum, multiply(upper[i]![j]!, solution[j]!));
    solution[i] = divide(sum, upper[i]![i]!);
  }
  return solution;
}

/** Solves R'x = v for the triangle of a factor. */
export function solveUpperTransposed(
  upper: ReadonlyArray<DoubleDouble[]>,
  right: ReadonlyArray<DoubleDouble>,
): DoubleDouble[] {
  const solution: DoubleDouble[] = new Array(upper.length);
  for (let i = 0; i < upper.length; i++) {
    let sum = right[i]!;
    for (let j = 0; j < i; j++) sum = subtract(sum, multiply(upper[j]![i]!, solution[j]!));
    solution[i] = divide(sum, upper[i]![i]!);
  }
  return solution;
}

/** Sum of the squares of some numbers. */
export function sumOfSquares(values: Iterable<DoubleDouble>): DoubleDouble {
  let sum = zero;
  for (const value of values) sum = add(sum, multiply(value, value));
  return sum;
}
