import { interactionMark, interceptName, type ModelTerm, termCodings } from "../linear-models/model-term.ts";
import { power } from "../power.ts";

/** One column of a design; `name` is as the results carry it. */
export interface FixedColumn {
  name: string;
  values: Float64Array;
}

/**
 * Lays out the fixed part of a model: an intercept, then the columns of each term, factors coded against their reference.
 * @param length number of observations
 * @throws RangeError as `termCodings`, or if a factor has fewer than 2 levels, or an interaction of three terms or more
 *   leaves out a lower one
 * @internal
 */
export function fixedDesign(routine: string, terms: ReadonlyArray<ModelTerm>, length: number): FixedColumn[] {
  const codings = termCodings(routine, terms, length);
  const byTerm = new Map<string, FixedColumn[]>([
    [interceptName, [{ name: interceptName, values: new Float64Array(length).fill(1) }]],
  ]);
  codings.forEach((coding, k) => {
    const term = terms[k]!;
    if (term.kind === "interaction") {
      requireLower(routine, term.of, terms.slice(0, k));
      byTerm.set(coding.name, productColumns(term.of.map((part) => byTerm.get(part)!)));
    } else if (coding.kind === "factor") {
      byTerm.set(coding.name, factorColumns(routine, coding.name, coding.levels, term.values as ReadonlyArray<string>));
    } else {
      const exponent = term.kind === "power" ? term.exponent : 1;
      const values = Float64Array.from(term.values as ReadonlyArray<number>, (value) => power(value, exponent));
      byTerm.set(coding.name, [{ name: coding.name, values }]);
    }
  });
  return [...byTerm.values()].flat();
}

function factorColumns(
  routine: string,
  name: string,
  levels: ReadonlyArray<string>,
  values: ReadonlyArray<string>,
): FixedColumn[] {
  if (levels.length < 2) {
    throw new RangeError(`${routine}: factor "${name}" needs at least 2 levels; received ${levels.length}`);
  }
  return levels.slice(1).map((level) => ({
    name: `${name}: ${level}`,
    values: Float64Array.from(values, (value) => (value === level ? 1 : 0)),
  }));
}

/** Each column of the first times each of the second, and so on. */
function productColumns(parts: ReadonlyArray<ReadonlyArray<FixedColumn>>): FixedColumn[] {
  return parts
    .map((columns) => [...columns])
    .reduce((lefts, rights) =>
      lefts.flatMap((left) =>
        rights.map((right) => ({
          name: `${left.name}${interactionMark}${right.name}`,
          values: left.values.map((value, i) => value * right.values[i]!),
        })),
      ),
    );
}

/** Fails where an interaction of three terms or more is listed before one of those it is made of. */
function requireLower(routine: string, of: ReadonlyArray<string>, before: ReadonlyArray<ModelTerm>): void {
  if (of.length < 3) return;
  for (const left of of) {
    const lower = of.filter((part) => part !== left);
    const known = before.some(
      (term) =>
        term.kind === "interaction" && term.of.length === lower.length && lower.every((part) => term.of.includes(part)),
    );
    if (!known) {
      throw new RangeError(
        `${routine}: the interaction of ${of.join(", ")} needs that of ${lower.join(", ")} listed before it`,
      );
    }
  }
}
