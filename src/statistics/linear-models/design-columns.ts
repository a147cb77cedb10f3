import { multiply } from "../linear-algebra/double-double.ts";
import {
  columnOf,
  columnProduct,
  type DoubleDoubleColumn,
  emptyColumn,
  entry,
  setEntry,
} from "../linear-algebra/double-double-column.ts";
import { interactionMark, interceptName, type TermCoding } from "./model-term.ts";

/** One column of a design. */
export interface DesignColumn {
  name: string;
  /** the term it belongs to, "intercept" for the constant column */
  term: string;
  values: DoubleDoubleColumn;
}

/** Values of every term but the interactions, by name; a power takes the values it raises. */
export type TermValues = ReadonlyMap<string, ReadonlyArray<number> | ReadonlyArray<string>>;

/**
 * Lays out a design for any rows: an intercept if wanted, then the columns of each term in the order given; a factor's compare
 * each level with the first.
 * @internal
 */
export function designColumns(
  codings: ReadonlyArray<TermCoding>,
  values: TermValues,
  rows: number,
  intercept: boolean,
): DesignColumn[] {
  const columns: DesignColumn[] = [];
  if (intercept) {
    const ones = emptyColumn(rows);
    ones.high.fill(1);
    columns.push({ name: interceptName, term: interceptName, values: ones });
  }
  const byTerm = new Map<string, DesignColumn[]>();
  for (const term of codings) {
    const own = columnsOf(term, values, byTerm);
    byTerm.set(term.name, own);
    columns.push(...own);
  }
  return columns;
}

function columnsOf(term: TermCoding, values: TermValues, byTerm: ReadonlyMap<string, DesignColumn[]>): DesignColumn[] {
  if (term.kind === "interaction") {
    let products: DesignColumn[] = byTerm.get(term.of[0]!)!;
    for (const part of term.of.slice(1)) {
      products = products.flatMap((left) =>
        byTerm.get(part)!.map((right) => ({
          name: `${left.name}${interactionMark}${right.name}`,
          term: term.name,
          values: columnProduct(left.values, right.values),
        })),
      );
    }
    return products.map((column) => ({ ...column, term: term.name }));
  }
  if (term.kind === "factor") {
    const own = values.get(term.name) as ReadonlyArray<string>;
    return term.levels.slice(1).map((level) => {
      const column = emptyColumn(own.length);
      for (let i = 0; i < own.length; i++) column.high[i] = own[i] === level ? 1 : 0;
      return { name: `${term.name}: ${level}`, term: term.name, values: column };
    });
  }
  const base = columnOf(values.get(term.name) as ReadonlyArray<number>);
  const raised = term.kind === "power" ? raise(base, term.exponent) : base;
  return [{ name: term.name, term: term.name, values: raised }];
}

function raise(base: DoubleDoubleColumn, exponent: number): DoubleDoubleColumn {
  const raised = emptyColumn(base.high.length);
  for (let i = 0; i < base.high.length; i++) {
    const value = entry(base, i);
    let power = value;
    for (let k = 1; k < exponent; k++) power = multiply(power, value);
    setEntry(raised, i, power);
  }
  return raised;
}
