import { requireFinite, requireSameLength } from "../require-numbers.ts";
import { orderings } from "./count-arrangements.ts";

/** How the rows of a randomised trial belong together. */
export interface PermutationRows {
  /** one value per row */
  response: ReadonlyArray<number>;
  /** block of each row: treatments were dealt within blocks, and are permuted within them */
  strata?: ReadonlyArray<string>;
  /** what the treatment was given to, if not to the row: a jar, a cook. Rows of one cluster are averaged and permuted together */
  clusters?: ReadonlyArray<string>;
}

/** Units sorted by stratum, ready to be permuted. */
export interface PermutationLayout {
  /** response of each unit less the mean of its stratum */
  centred: Float64Array;
  /** code of each unit's treatment, from 0 */
  codes: Int32Array;
  /** where each stratum starts, and the number of units at the end */
  starts: Int32Array;
  /** number of treatments */
  codeCount: number;
  /** [stratum × codeCount + code]: units there */
  counts: Int32Array;
  /** different ways to deal the treatments */
  possible: number;
}

/**
 * Averages rows into units and sorts the units by stratum.
 * @param treatments one per row, as codes from 0 to codeCount - 1
 * @throws RangeError if columns differ in length, there are fewer than two units, a value is not finite, or the rows of a
 *   cluster differ in treatment or stratum
 * @internal
 */
export function permutationLayout(
  routine: string,
  rows: PermutationRows,
  treatments: Int32Array,
  codeCount: number,
): PermutationLayout {
  const { response, strata, clusters } = rows;
  requireFinite(routine, "response", response);
  requireSameLength(routine, "response", response, "treatments", Array.from(treatments));
  if (strata !== undefined) requireSameLength(routine, "response", response, "strata", strata);
  if (clusters !== undefined) requireSameLength(routine, "response", response, "clusters", clusters);
  const units = new Map<string | number, { sum: number; count: number; code: number; stratum: string }>();
  response.forEach((value, i) => {
    const key = clusters?.[i] ?? i;
    const stratum = strata?.[i] ?? "";
    let unit = units.get(key);
    if (unit === undefined) {
      unit = { sum: 0, count: 0, code: treatments[i]!, stratum };
      units.set(key, unit);
    }
    if (unit.code !== treatments[i] || unit.stratum !== stratum) {
      throw new RangeError(
        `${routine}: all rows of a cluster must share their treatment and stratum; received cluster "${key}" with two`,
      );
    }
    unit.sum += value;
    unit.count++;
  });
  if (units.size < 2) throw new RangeError(`${routine}: at least 2 units are needed; received ${units.size}`);
  const gathered = new Map<string, { sum: number; count: number; code: number; stratum: string }[]>();
  for (const unit of units.values()) {
    const own = gathered.get(unit.stratum);
    if (own === undefined) gathered.set(unit.stratum, [unit]);
    else own.push(unit);
  }
  const names = [...gathered.keys()].sort();
  const byStratum = names.map((name) => gathered.get(name)!);
  const ordered = byStratum.flat();
  const starts = new Int32Array(names.length + 1);
  const counts = new Int32Array(names.length * codeCount);
  const centred = new Float64Array(ordered.length);
  byStratum.forEach((own, s) => {
    starts[s + 1] = starts[s]! + own.length;
    const means = own.map(({ sum, count }) => sum / count);
    const first = means[0]!;
    const middle = means.reduce((sum, value) => sum + (value - first), 0) / own.length;
    own.forEach(({ code }, i) => {
      centred[starts[s]! + i] = means[i]! - first - middle;
      counts[s * codeCount + code]!++;
    });
  });
  let possible = 1;
  for (let s = 0; s < names.length; s++) possible *= orderings(counts.subarray(s * codeCount, (s + 1) * codeCount));
  return { centred, codes: Int32Array.from(ordered, ({ code }) => code), starts, codeCount, counts, possible };
}
