import { requireCount, requireFinite, requireSameLength } from "../require-numbers.ts";

/** A column of numbers with a name that the results carry. */
export interface NamedColumn {
  name: string;
  values: ReadonlyArray<number>;
}

/** What a logistic regression is fitted to. */
export interface LogisticInput {
  /** count with the outcome in each row; 0 or 1 when a row is one unit */
  successes: ReadonlyArray<number>;
  /** units in each row, 1 or more; all 1 when absent */
  trials?: ReadonlyArray<number>;
  /** explanatory columns, as long as `successes`; an intercept is always added */
  columns: ReadonlyArray<NamedColumn>;
}

/** Name of the constant term in every result. */
const interceptName = "intercept";

/** A checked design: row-major, with the intercept first. */
export interface LogisticDesign {
  names: string[];
  rows: Float64Array[];
  successes: Float64Array;
  trials: Float64Array;
}

/**
 * Checks the input and adds the intercept.
 * @throws RangeError if a column differs in length or holds a non-finite value, a count is not whole, successes exceed
 *   trials, a name repeats, or there are fewer rows than coefficients
 * @internal
 */
export function logisticDesign(routine: string, input: LogisticInput): LogisticDesign {
  const { successes, columns } = input;
  const trials = input.trials ?? successes.map(() => 1);
  requireSameLength(routine, "successes", successes, "trials", trials);
  successes.forEach((count, row) => {
    requireCount(routine, "each successes", count, 0);
    requireCount(routine, "each trials", trials[row]!, 1);
    if (count > trials[row]!) {
      throw new RangeError(
        `${routine}: successes must not exceed trials; received ${count} of ${trials[row]} in row ${row + 1}`,
      );
    }
  });
  const names = [interceptName, ...columns.map((column) => column.name)];
  if (new Set(names).size < names.length) {
    throw new RangeError(`${routine}: every column needs its own name; received ${names.join(", ")}`);
  }
  for (const column of columns) {
    requireSameLength(routine, "successes", successes, column.name, column.values);
    requireFinite(routine, column.name, column.values);
  }
  if (successes.length < names.length) {
    throw new RangeError(`${routine}: needs at least ${names.length} rows; received ${successes.length}`);
  }
  const rows = successes.map((_, row) => Float64Array.from([1, ...columns.map((column) => column.values[row]!)]));
  return { names, rows, successes: Float64Array.from(successes), trials: Float64Array.from(trials) };
}

/** A column that keeps less than this share of its length beside the columns before it follows from them. */
export const dependentBelow = 1e-11;

/**
 * The columns of a design.
 * @internal
 */
export function columnsOf({ rows }: Pick<LogisticDesign, "rows">): Float64Array[] {
  return Array.from(rows[0]!, (_, column) => Float64Array.from(rows, (row) => row[column]!));
}
