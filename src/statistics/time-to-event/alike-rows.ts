import type { ModelTerm } from "../linear-models/model-term.ts";

/** Rows of a design in groups that have the same value of every term, and so the same row of the design. */
export interface AlikeRows {
  /** group of each row, from 0 */
  groupOf: Int32Array;
  /** one row of each group */
  first: Int32Array;
}

/**
 * Groups the rows by the values of their terms.
 * @internal
 */
export function alikeRows(terms: ReadonlyArray<ModelTerm>, length: number): AlikeRows {
  let groupOf = new Int32Array(length);
  let first = length > 0 ? [0] : [];
  for (const term of terms) {
    if (term.kind === "interaction") continue;
    const { values } = term;
    const numbers = first.map(() => new Map<string | number, number>());
    const refined = new Int32Array(length);
    first = [];
    for (let i = 0; i < length; i++) {
      const own = numbers[groupOf[i]!]!;
      let group = own.get(values[i]!);
      if (group === undefined) {
        group = first.length;
        own.set(values[i]!, group);
        first.push(i);
      }
      refined[i] = group;
    }
    groupOf = refined;
  }
  return { groupOf, first: Int32Array.from(first) };
}
