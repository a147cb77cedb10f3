import {
  interactionMark,
  interceptName,
  type ModelTerm,
  type TermCoding,
  termCodings,
} from "../linear-models/model-term.ts";
import { power } from "../power.ts";

/** What one column of the design stands for: an indicator of these levels times the product of these numbers. */
export interface FixedColumn {
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
export interface FixedDesign {
  columns: FixedColumn[];
  terms: { name: string; factors: string[]; numbers: ReadonlySet<string> }[];
  /** levels of each factor, reference first */
  factorLevels: Map<string, string[]>;
  /** for number and power terms: the term whose values they raise, the mean of those values, and the exponent */
  numberTerms: Map<string, { base: string; mean: number; exponent: number }>;
}

function factorColumns(name: string, levels: ReadonlyArray<string>, values: ReadonlyArray<string>): FixedColumn[] {
  return levels.slice(1).map((level) => ({
    name: `${name}: ${level}`,
    term: name,
    levels: new Map([[name, level]]),
    numbers: new Set<string>(),
    values: Float64Array.from(values, (value) => (value === level ? 1 : 0)),
  }));
}

function product(left: FixedColumn, right: FixedColumn, term: string): FixedColumn {
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
 * Keeps what each column stands for, from which tests of terms and estimated means are built.
 * @param length number of observations
 * @throws RangeError as `termCodings`, or if a factor has fewer than 2 levels, or an interaction of three terms or more
 *   leaves out a lower one
 * @internal
 */
export function fixedDesign(routine: string, terms: ReadonlyArray<ModelTerm>, length: number): FixedDesign {
  const codings = termCodings(routine, terms, length);
  const design: FixedDesign = { columns: [], terms: [], factorLevels: new Map(), numberTerms: new Map() };
  const byTerm = new Map<string, FixedColumn[]>();
  const ones = new Float64Array(length).fill(1);
  design.columns.push({
    name: interceptName,
    term: interceptName,
    levels: new Map(),
    numbers: new Set(),
    values: ones,
  });
  codings.forEach((coding, k) => {
    const columns = columnsOf(routine, coding, terms[k]!, design, byTerm);
    byTerm.set(coding.name, columns);
    design.columns.push(...columns);
  });
  return design;
}

function columnsOf(
  routine: string,
  coding: TermCoding,
  term: ModelTerm,
  design: FixedDesign,
  byTerm: ReadonlyMap<string, FixedColumn[]>,
): FixedColumn[] {
  const { name } = coding;
  if (coding.kind === "interaction") return interactionColumns(routine, coding.of, name, design, byTerm);
  if (coding.kind === "factor") {
    if (coding.levels.length < 2) {
      throw new RangeError(`${routine}: factor "${name}" needs at least 2 levels; received ${coding.levels.length}`);
    }
    design.factorLevels.set(name, coding.levels);
    design.terms.push({ name, factors: [name], numbers: new Set() });
    return factorColumns(name, coding.levels, (term as ModelTerm & { kind: "factor" }).values);
  }
  const { values } = term as ModelTerm & { kind: "number" | "power" };
  const exponent = coding.kind === "power" ? coding.exponent : 1;
  const base = coding.kind === "power" ? coding.base : name;
  const numbers = new Set([name]);
  design.numberTerms.set(name, {
    base,
    mean: values.reduce((sum, value) => sum + value / values.length, 0),
    exponent,
  });
  design.terms.push({ name, factors: [], numbers });
  return [
    {
      name,
      term: name,
      levels: new Map(),
      numbers,
      values: Float64Array.from(values, (value) => power(value, exponent)),
    },
  ];
}

function interactionColumns(
  routine: string,
  of: ReadonlyArray<string>,
  name: string,
  design: FixedDesign,
  byTerm: ReadonlyMap<string, FixedColumn[]>,
): FixedColumn[] {
  for (let left = 0; of.length > 2 && left < of.length; left++) {
    const lower = of.filter((_, k) => k !== left);
    const known = design.terms.some(
      (term) =>
        term.factors.length + term.numbers.size === lower.length &&
        lower.every((part) => term.factors.includes(part) || term.numbers.has(part)),
    );
    if (!known) {
      throw new RangeError(
        `${routine}: the interaction of ${of.join(", ")} needs that of ${lower.join(", ")} listed before it`,
      );
    }
  }
  const parts = of.map((part) => design.terms.find((term) => term.name === part)!);
  design.terms.push({
    name,
    factors: parts.flatMap((part) => part.factors),
    numbers: new Set(parts.flatMap((part) => [...part.numbers])),
  });
  let columns = byTerm.get(of[0]!)!;
  for (const part of of.slice(1)) {
    columns = columns.flatMap((left) => byTerm.get(part)!.map((right) => product(left, right, name)));
  }
  return columns.map((column) => ({ ...column, term: name }));
}
