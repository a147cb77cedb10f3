import { power } from "../power.ts";
import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** One term of a linear model, with one value per row. */
export type ModelTerm =
  | { kind: "number"; name: string; values: ReadonlyArray<number> }
  /** the values raised to a whole power of 2 or more; the name must differ from that of the values' own term: "dose squared" */
  | { kind: "power"; name: string; values: ReadonlyArray<number>; exponent: number }
  /** levels compared with the reference level, which is the first in code-point order unless stated */
  | { kind: "factor"; name: string; values: ReadonlyArray<string>; reference?: string }
  /** product of terms listed before it; named by joining their names with " × " */
  | { kind: "interaction"; of: ReadonlyArray<string> };

/** How an interaction and its columns are named. */
export const interactionMark = " × ";

/** The name of the constant column. */
export const interceptName = "intercept";

/** Beyond this size the squares of the numbers leave the range of doubles. */
const largest = 1e140;

function termName(term: ModelTerm): string {
  return term.kind === "interaction" ? term.of.join(interactionMark) : term.name;
}

/** What a term needs to be coded for any rows: the values aside, everything about it. */
export type TermCoding =
  | { kind: "number"; name: string }
  | { kind: "power"; name: string; exponent: number }
  /** reference level first */
  | { kind: "factor"; name: string; levels: string[] }
  | { kind: "interaction"; name: string; of: ReadonlyArray<string> };

/**
 * Checks the terms of a model and says how each is coded.
 * @param rows how many values each must have
 * @throws RangeError if names repeat, a column's length differs, a number is not finite or too large to square, an exponent
 *   is not a whole number of 2 or more, a reference is not a level, or an interaction names a term not listed before it
 * @internal
 */
export function termCodings(routine: string, terms: ReadonlyArray<ModelTerm>, rows: number): TermCoding[] {
  const codings: TermCoding[] = [];
  for (const term of terms) {
    const name = termName(term);
    if (name === "" || name === interceptName || codings.some((other) => other.name === name)) {
      throw new RangeError(
        `${routine}: terms must have different names, none empty or "${interceptName}"; received "${name}"`,
      );
    }
    if (term.kind === "interaction") {
      requireParts(routine, term.of, codings);
      codings.push({ kind: "interaction", name, of: term.of });
      continue;
    }
    requireSameLength(routine, "response", { length: rows } as ReadonlyArray<unknown>, name, term.values);
    if (term.kind === "factor") {
      codings.push({ kind: "factor", name, levels: levelsOf(routine, term) });
      continue;
    }
    requireFinite(routine, name, term.values);
    const exponent = term.kind === "power" ? term.exponent : 1;
    const unsafe = term.values.find((value) => power(Math.abs(value), exponent) > largest);
    if (unsafe !== undefined) {
      throw new RangeError(`${routine}: values of "${name}" must stay below ${largest}; received ${unsafe}`);
    }
    if (term.kind === "number") {
      codings.push({ kind: "number", name });
      continue;
    }
    if (!Number.isInteger(exponent) || exponent < 2) {
      throw new RangeError(
        `${routine}: exponent of "${name}" must be a whole number of 2 or more; received ${exponent}`,
      );
    }
    codings.push({ kind: "power", name, exponent });
  }
  return codings;
}

function levelsOf(routine: string, term: ModelTerm & { kind: "factor" }): string[] {
  const levels = [...new Set(term.values)].sort();
  if (term.reference === undefined) return levels;
  if (!levels.includes(term.reference)) {
    throw new RangeError(
      `${routine}: the reference of "${term.name}" must be one of its levels; received "${term.reference}"`,
    );
  }
  return [term.reference, ...levels.filter((level) => level !== term.reference)];
}

function requireParts(routine: string, of: ReadonlyArray<string>, codings: ReadonlyArray<TermCoding>): void {
  const known = of.every((part) => codings.some((coding) => coding.kind !== "interaction" && coding.name === part));
  if (of.length < 2 || new Set(of).size < of.length || !known) {
    throw new RangeError(
      `${routine}: an interaction must name at least 2 different terms listed before it; received ${of.join(", ")}`,
    );
  }
}
