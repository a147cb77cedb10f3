import type { ColumnArithmetic } from "./column-arithmetic.ts";
import { solveUpper } from "./triangle.ts";

/** A column of a design that the columns before it already determine. */
export interface DependentColumn<Scalar> {
  /** its position among the columns given */
  column: number;
  /** what multiple of each kept column (in the order of `kept`) it is the sum of */
  multiples: Scalar[];
}

/** A tall matrix as rotation times triangle. */
export interface OrthogonalFactor<Scalar, Column> {
  /** positions of the independent columns, in the order given */
  kept: number[];
  dependent: DependentColumn<Scalar>[];
  /** entry [i][j] of the triangle R over the kept columns, 0 below the diagonal; a diagonal entry can have either sign */
  upper: Scalar[][];
  /** least share of its length that a column keeps once the columns before it are removed; 0 when columns depend on one another */
  independence: number;
  /** a copy of a column as long as those given, turned by the rotation: its first entries belong to the kept columns */
  rotate(column: Column): Column;
  /** the inverse of `rotate` */
  rotateBack(column: Column): Column;
  /** perpendicular unit columns that span the kept ones, in their order; worked out when first asked for */
  basis(): Column[];
  /** least-squares coefficients of all columns given, from a right-hand side turned by `rotate`; 0 for dependent columns */
  solve(rotated: Column): Scalar[];
}

/**
 * Householder triangularisation that keeps the columns in the order given and sets aside each one that depends on those before it.
 * @param numbers ordinary numbers, or double-doubles where digits are short: these take about twice as long
 * @param columns equally long; overwritten, so that fits repeated many times copy nothing
 * @param dependentBelow a column that keeps this share of its length or less beside the columns before it is set aside
 * @source Golub and Van Loan 1996, Matrix Computations, 3rd edition, algorithm 5.2.1, p. 224
 * @example orthogonalFactor(ordinary, [Float64Array.of(1, 1), Float64Array.of(2, 2)], 1e-12).kept // [0]
 */
export function orthogonalFactor<Scalar, Column>(
  numbers: ColumnArithmetic<Scalar, Column>,
  columns: ReadonlyArray<Column>,
  dependentBelow: number,
): OrthogonalFactor<Scalar, Column> {
  const { rows, reflections, kept, setAside, independence } = triangularise(numbers, columns, dependentBelow);
  const rotatedColumns = rotatedParts(numbers, columns, kept, reflections);
  const upper = kept.map((_, i) => kept.map((position) => rotatedColumns[position]![i]!));
  const rotateBack = (column: Column): Column => {
    const turned = numbers.copy(column);
    // a reflection leaves a column alone that is 0 from its own row on
    let last = rows - 1;
    while (last > 0 && numbers.toNumber(numbers.entry(turned, last)) === 0) last--;
    for (let k = Math.min(kept.length - 1, last); k >= 0; k--) reflect(numbers, reflections[k]!, turned);
    return turned;
  };
  let basis: Column[] | undefined;
  return {
    kept,
    upper,
    independence,
    dependent: setAside.map((column) => ({ column, multiples: solveUpper(numbers, upper, rotatedColumns[column]!) })),
    rotate: (column) => {
      const turned = numbers.copy(column);
      for (const reflection of reflections) reflect(numbers, reflection, turned);
      return turned;
    },
    rotateBack,
    basis: () => {
      basis ??= kept.map((_, k) => rotateBack(axis(numbers, rows, k)));
      return basis;
    },
    solve: (rotated) => {
      const coefficients = columns.map(() => numbers.zero);
      const effects = kept.map((_, k) => numbers.entry(rotated, k));
      solveUpper(numbers, upper, effects).forEach((coefficient, k) => {
        coefficients[kept[k]!] = coefficient;
      });
      return coefficients;
    },
  };
}

/** Reflects column after column; each becomes the direction of its own reflection. */
function triangularise<Scalar, Column>(
  numbers: ColumnArithmetic<Scalar, Column>,
  columns: ReadonlyArray<Column>,
  dependentBelow: number,
) {
  const rows = columns.length === 0 ? 0 : numbers.length(columns[0]!);
  const reflections: Reflection<Scalar, Column>[] = [];
  const kept: number[] = [];
  const setAside: number[] = [];
  const wholes = columns.map((column) => numbers.toNumber(numbers.euclideanLength(column, 0)));
  let independence = 1;
  for (let j = 0; j < columns.length; j++) {
    const from = kept.length;
    const whole = wholes[j]!;
    const left = from < rows ? numbers.euclideanLength(columns[j]!, from) : numbers.zero;
    independence = Math.min(independence, whole === 0 ? 0 : numbers.toNumber(left) / whole);
    if (!(numbers.toNumber(left) > dependentBelow * whole)) {
      setAside.push(j);
      continue;
    }
    const reflection = reflectionOf(numbers, columns[j]!, from, left);
    for (let later = j + 1; later < columns.length; later++) reflect(numbers, reflection, columns[later]!);
    reflections.push(reflection);
    kept.push(j);
  }
  return { rows, reflections, kept, setAside, independence };
}

/** A column of zeros but for a 1 in one row. */
function axis<Scalar, Column>(numbers: ColumnArithmetic<Scalar, Column>, rows: number, row: number): Column {
  const column = numbers.empty(rows);
  numbers.setEntry(column, row, numbers.one);
  return column;
}

interface Reflection<Scalar, Column> {
  /** what the reflection turns round: its entries from row `from` on */
  direction: Column;
  from: number;
  /** 2 / |direction|² */
  scale: Scalar;
  /** the one entry left of the reflected column from row `from` on */
  diagonal: Scalar;
}

/** The reflection that clears a column below row `from`; the column becomes its direction. */
function reflectionOf<Scalar, Column>(
  numbers: ColumnArithmetic<Scalar, Column>,
  column: Column,
  from: number,
  length: Scalar,
): Reflection<Scalar, Column> {
  const leading = numbers.entry(column, from);
  const diagonal = numbers.toNumber(leading) > 0 ? numbers.negate(length) : length;
  const shifted = numbers.subtract(leading, diagonal);
  numbers.setEntry(column, from, shifted);
  const scale = numbers.divide(numbers.one, numbers.multiply(numbers.negate(diagonal), shifted));
  return { direction: column, from, scale, diagonal };
}

function reflect<Scalar, Column>(
  numbers: ColumnArithmetic<Scalar, Column>,
  { direction, from, scale }: Reflection<Scalar, Column>,
  column: Column,
): void {
  const factor = numbers.multiply(numbers.dot(direction, column, from), scale);
  numbers.subtractMultiple(column, factor, direction, from);
}

/** The leading entries of every column once rotated; what is left of a column in later rows than its own is rounding. */
function rotatedParts<Scalar, Column>(
  numbers: ColumnArithmetic<Scalar, Column>,
  columns: ReadonlyArray<Column>,
  kept: ReadonlyArray<number>,
  reflections: ReadonlyArray<Reflection<Scalar, Column>>,
): Scalar[][] {
  let before = 0;
  return columns.map((column, j) => {
    const parts: Scalar[] = [];
    for (let i = 0; i < before; i++) parts.push(numbers.entry(column, i));
    if (kept[before] === j) parts.push(reflections[before++]!.diagonal);
    while (parts.length < kept.length) parts.push(numbers.zero);
    return parts;
  });
}
