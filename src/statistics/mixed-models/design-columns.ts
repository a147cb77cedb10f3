import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** One term of the fixed part of a model. */
export type FixedTerm =
  | { kind: "number"; name: string; values: ReadonlyArray<number> }
  /** the values raised to a power; the name must differ from that of the values' own term: "dose squared" */
  | { kind: "power"; name: string; values: ReadonlyArray<number>; exponent: number }
  /** levels compared with the reference level, which is the first in code-point order unless stated */
  | { kind: "factor"; name: string; values: ReadonlyArray<string>; reference?: string }
  /** product of terms listed before it */
  | { kind: "interaction"; of: ReadonlyArray<string> };

/** What one column of the design stands for: an indicator of these levels times the product of these numbers. */
export interface DesignColumn {
  name: string;
  /** the term it belongs to; "intercept" for the first column */
  term: string;
  /** level of each factor that the column singles out */
  levels: ReadonlyMap<string, string>;
  /** names of the number and power terms multiplied in */
  numbers: ReadonlySet<string>;
  values: Float64Array;
}

/** The fixed part of a model as columns. */
export interface Design {
  columns: DesignColumn[];
  terms: { name: string; factors: string[]; numbers: Set<string> }[];
  /** levels of each factor, reference first */
  factorLevels: Map<string, string[]>;
  /** for number and power terms: the term whose values they raise, the mean of those values, and the exponent */
  numberTerms: Map<string, { base: string; mean: number; exponent: number }>;
}

/** How an interaction and its columns are named. */
export const interactionMark = " × ";

function factorColumns(routine: string, term: FixedTerm & { kind: "factor" }, levels: string[]): DesignColumn[] {
  if (term.reference !== undefined) {
    const position = levels.indexOf(term.reference);
    if (position < 0) {
      throw new RangeError(
        `${routine}: the reference of "${term.name}" must be one of its levels; received "${term.reference}"`,
      );
    }
    levels.splice(position, 1);
    levels.unshift(term.reference);
  }
  return levels.slice(1).map((level) => ({
    name: `${term.name}: ${level}`,
    term: term.name,
    levels: new Map([[term.name, level]]),
    numbers: new Set<string>(),
    values: Float64Array.from(term.values, (value) => (value === level ? 1 : 0)),
  }));
}

function product(left: DesignColumn, right: DesignColumn, term: string): DesignColumn {
  return {
    name: `${left.name}${interactionMark}${right.name}`,
    term,
    levels: new Map([...left.levels, ...right.levels]),
    numbers: new Set([...left.numbers, ...right.numbers]),
    values: left.values.map((value, i) => value * right.values[i]!),
  };
}

/**
 * Lays out the fixed part of a model: an intercept, then the columns of each term, factors coded against their reference.
 * @param length number of observations
 * @throws RangeError if a term's length differs, a number is not finite, a factor has fewer than 2 levels or an unknown
 *   reference, two terms share a name, an exponent is not a whole number of 2 or more, or an interaction names terms
 *   (or leaves out lower interactions) that are not listed before it
 */
export function designColumns(routine: string, terms: ReadonlyArray<FixedTerm>, length: number): Design {
  const design: Design = { columns: [], terms: [], factorLevels: new Map(), numberTerms: new Map() };
  const byTerm = new Map<string, DesignColumn[]>();
  design.columns.push({
    name: "intercept",
    term: "intercept",
    levels: new Map(),
    numbers: new Set(),
    values: new Float64Array(length).fill(1),
  });
  for (const term of terms) {
    const name = term.kind === "interaction" ? term.of.join(interactionMark) : term.name;
    if (byTerm.has(name) || name === "intercept") {
      throw new RangeError(`${routine}: terms must have different names, none "intercept"; received "${name}" again`);
    }
    let columns: DesignColumn[];
    if (term.kind === "interaction") {
      columns = interactionColumns(routine, term.of, name, design, byTerm);
    } else {
      requireSameLength(routine, "response", { length } as ReadonlyArray<unknown>, name, term.values);
      if (term.kind === "factor") {
        const levels = [...new Set(term.values)].sort();
        if (levels.length < 2) {
          throw new RangeError(`${routine}: factor "${name}" needs at least 2 levels; received ${levels.length}`);
        }
        columns = factorColumns(routine, term, levels);
        design.factorLevels.set(name, levels);
      } else {
        requireFinite(routine, name, term.values);
        const exponent = term.kind === "power" ? term.exponent : 1;
        if (term.kind === "power" && (!Number.isInteger(exponent) || exponent < 2)) {
          throw new RangeError(`${routine}: exponent of "${name}" must be a whole number from 2; received ${exponent}`);
        }
        const values = Float64Array.from(term.values, (value) => value ** exponent);
        columns = [{ name, term: name, levels: new Map(), numbers: new Set([name]), values }];
        const mean = term.values.reduce((sum, value) => sum + value / length, 0);
        const base = terms.find((other) => other.kind === "number" && sameValues(other.values, term.values));
        design.numberTerms.set(name, { base: base?.kind === "number" ? base.name : name, mean, exponent });
      }
      design.terms.push({
        name,
        factors: term.kind === "factor" ? [name] : [],
        numbers: columns[0]!.numbers as Set<string>,
      });
    }
    byTerm.set(name, columns);
    design.columns.push(...columns);
  }
  return design;
}

function interactionColumns(
  routine: string,
  of: ReadonlyArray<string>,
  name: string,
  design: Design,
  byTerm: ReadonlyMap<string, DesignColumn[]>,
): DesignColumn[] {
  const parts = of.map((part) => design.terms.find((term) => term.name === part && byTerm.has(part)));
  if (of.length < 2 || new Set(of).size < of.length || parts.includes(undefined)) {
    throw new RangeError(
      `${routine}: an interaction must name at least 2 different terms listed before it; received ${of.join(", ")}`,
    );
  }
  for (let left = 0; of.length > 2 && left < of.length; left++) {
    const lower = of.filter((_, k) => k !== left);
    const known = design.terms.some(
      (term) => term.factors.length + term.numbers.size === lower.length && lower.every((part) => isPart(term, part)),
    );
    if (!known) {
      throw new RangeError(
        `${routine}: the interaction of ${of.join(", ")} needs that of ${lower.join(", ")} listed before it`,
      );
    }
  }
  design.terms.push({
    name,
    factors: parts.flatMap((part) => part!.factors),
    numbers: new Set(parts.flatMap((part) => [...part!.numbers])),
  });
  let columns = byTerm.get(of[0]!)!;
  for (const part of of.slice(1)) {
    columns = columns.flatMap((left) => byTerm.get(part)!.map((right) => product(left, right, name)));
  }
  return columns.map((column) => ({ ...column, term: name }));
}

function isPart(term: Design["terms"][number], part: string): boolean {
  return term.factors.includes(part) || term.numbers.has(part);
}

function sameValues(a: ReadonlyArray<number>, b: ReadonlyArray<number>): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
