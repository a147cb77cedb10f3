import { toNumber } from "../linear-algebra/double-double.ts";
import { columnOfEntries, type DoubleDoubleColumn } from "../linear-algebra/double-double-column.ts";
import { doubleDoubleFactor } from "../linear-algebra/double-double-factor.ts";
import type { LinearModel } from "./linear-model.ts";
import { interceptName } from "./model-term.ts";

/** How much a term's overlap with the others widens its confidence region. */
export interface VarianceInflation {
  term: string;
  /** columns of the term that were kept */
  degreesOfFreedom: number;
  /** factor by which the squared volume of the region grows: 1 is none; for one column the usual variance inflation factor */
  inflation: number;
  /** growth of one axis of the region, comparable between terms: inflation ^ (1 / (2 df)) */
  perAxis: number;
}

/**
 * Variance inflation factor of each term, generalised for terms of several columns (factors, interactions).
 * @returns one entry per term with a kept column, in order
 * @throws RangeError if the model has no term with a kept column
 * @source Fox and Monette 1992, Journal of the American Statistical Association 87(417):178-183
 * @example varianceInflation(linearModel({ response: [1, 3, 5.5, 7], terms: [{ kind: "number", name: "a", values: [0, 1, 2, 3] }, { kind: "number", name: "b", values: [0, 2, 1, 3] }] }))[0].inflation // 2.7777...
 */
export function varianceInflation(model: LinearModel): VarianceInflation[] {
  const { factor, columns, codings } = model.working;
  const kept = factor.kept.map((position) => ({
    term: columns[position]!.term,
    column: columnOfEntries(factor.rotatedColumns[position]!),
  }));
  const constant = kept.filter(({ term }) => term === interceptName);
  const results = codings.flatMap((coding) => {
    const own = kept.filter(({ term }) => term === coding.name);
    if (own.length === 0) return [];
    const others = kept.filter(({ term }) => term !== coding.name && term !== interceptName);
    const alone = logVolume([...constant, ...own], own.length);
    const adjusted = logVolume([...constant, ...others, ...own], own.length);
    const inflation = Math.exp(2 * (alone - adjusted));
    return [
      { term: coding.name, degreesOfFreedom: own.length, inflation, perAxis: inflation ** (1 / (2 * own.length)) },
    ];
  });
  if (results.length === 0) throw new RangeError("varianceInflation: the model must have a term; received none");
  return results;
}

/** Log of the volume spanned by the last columns, once the ones before are removed. */
function logVolume(columns: ReadonlyArray<{ column: DoubleDoubleColumn }>, last: number): number {
  const { upper } = doubleDoubleFactor(columns.map(({ column }) => column));
  let sum = 0;
  for (let k = upper.length - last; k < upper.length; k++) sum += Math.log(Math.abs(toNumber(upper[k]![k]!)));
  return sum;
}
