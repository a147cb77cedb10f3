import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** One term of a linear model, with one value per row. */
export type ModelTerm =
  | { kind: "number"; name: string; values: ReadonlyArray<number> }
  /** levels compared with the reference level, which is the first in code-point order unless stated */
  | { kind: "factor"; name: string; values: ReadonlyArray<string>; reference?: string };

/** One column of a design. */
export interface DesignColumn {
  /** "intercept", "dose", "cook: B" */
  name: string;
  /** the term it belongs to, "intercept" for the constant column */
  term: string;
  values: Float64Array;
}

const interceptName = "intercept";

/** Beyond this size the squares of the numbers leave the range of doubles. */
const largest = 1e140;

/**
 * Lays out a design: an intercept, then the columns of each term in the order given; a factor's compare each level with its
 * reference.
 * @param rows how many values each term must have
 * @throws RangeError if names repeat, a column's length differs, a number is not finite or too large to square, or a
 *   reference is not a level
 * @internal
 */
export function designColumns(routine: string, terms: ReadonlyArray<ModelTerm>, rows: number): DesignColumn[] {
  const names = [interceptName, ...terms.map(({ name }) => name)];
  const wrong = names.find((name, at) => name === "" || names.indexOf(name) < at);
  if (wrong !== undefined) {
    throw new RangeError(
      `${routine}: terms must have different names, none empty or "${interceptName}"; received "${wrong}"`,
    );
  }
  const columns = terms.flatMap((term): DesignColumn[] => {
    const { name } = term;
    requireSameLength(routine, "response", { length: rows } as ReadonlyArray<unknown>, name, term.values);
    if (term.kind === "factor") {
      return levelsOf(routine, term).map((level) => ({
        name: `${name}: ${level}`,
        term: name,
        values: Float64Array.from(term.values, (value) => (value === level ? 1 : 0)),
      }));
    }
    requireFinite(routine, name, term.values);
    const unsafe = term.values.find((value) => Math.abs(value) > largest);
    if (unsafe !== undefined) {
      throw new RangeError(`${routine}: values of "${name}" must stay below ${largest}; received ${unsafe}`);
    }
    return [{ name, term: name, values: Float64Array.from(term.values) }];
  });
  return [{ name: interceptName, term: interceptName, values: new Float64Array(rows).fill(1) }, ...columns];
}

/** Levels of a factor but its reference, in code-point order. */
function levelsOf(routine: string, { name, values, reference }: ModelTerm & { kind: "factor" }): string[] {
  const [first, ...others] = [...new Set(values)].sort();
  if (reference === undefined || reference === first) return others;
  if (!others.includes(reference)) {
    throw new RangeError(`${routine}: the reference of "${name}" must be one of its levels; received "${reference}"`);
  }
  return [first!, ...others.filter((level) => level !== reference)];
}
