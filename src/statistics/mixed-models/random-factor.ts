import { requireSameLength } from "../require-numbers.ts";

/** A grouping whose groups are a sample of many: the cook, the jar, the cooker-load. Each group adds one draw to all its trays. */
export interface RandomFactor {
  /** what the groups are: "cook" */
  name: string;
  /** the group of each observation */
  groups: ReadonlyArray<string>;
  /** name of an earlier random factor inside which the labels start again: jar "1" of cook "A" is not jar "1" of cook "B" */
  within?: string;
}

/** A random factor with its groups numbered. */
export interface NumberedFactor {
  name: string;
  /** group number of each observation, from 0 */
  index: Int32Array;
  /** how many there are */
  groups: number;
}

/**
 * Numbers the groups of each random factor.
 * @param length number of observations
 * @throws RangeError if there is none, names repeat, lengths differ, a factor has one group only, each observation is a
 *   group of its own, two factors split the observations alike, or `within` names no earlier factor
 * @internal
 */
export function numberRandomFactors(
  routine: string,
  factors: ReadonlyArray<RandomFactor>,
  length: number,
): NumberedFactor[] {
  if (factors.length === 0) throw new RangeError(`${routine}: random needs at least one grouping; received none`);
  const numbered: NumberedFactor[] = [];
  for (const factor of factors) {
    requireSameLength(routine, "response", { length } as ReadonlyArray<unknown>, factor.name, factor.groups);
    if (numbered.some((earlier) => earlier.name === factor.name)) {
      throw new RangeError(`${routine}: random groupings must have different names; received "${factor.name}" twice`);
    }
    const outer = numbered.find((earlier) => earlier.name === factor.within);
    if (factor.within !== undefined && outer === undefined) {
      throw new RangeError(
        `${routine}: "${factor.name}" lies within "${factor.within}", which must be listed before it`,
      );
    }
    const index = new Int32Array(length);
    let groups = 0;
    const seen: Map<string, number>[] = [];
    for (let i = 0; i < length; i++) {
      const outside = outer === undefined ? 0 : outer.index[i]!;
      const level = factor.groups[i]!;
      seen[outside] ??= new Map();
      let position = seen[outside].get(level);
      if (position === undefined) {
        position = groups++;
        seen[outside].set(level, position);
      }
      index[i] = position;
    }
    if (groups < 2) {
      throw new RangeError(`${routine}: "${factor.name}" needs at least 2 groups; received ${groups}`);
    }
    if (groups === length) {
      throw new RangeError(
        `${routine}: at least one group of "${factor.name}" must hold 2 observations or more, ` +
          `else its variance cannot be separated from the residual; received ${length} groups of one`,
      );
    }
    const twin = numbered.find((other) => other.groups === groups && nestedIn(index, other.index, groups));
    if (twin !== undefined) {
      throw new RangeError(
        `${routine}: "${twin.name}" and "${factor.name}" split the observations alike, so their variances cannot be separated`,
      );
    }
    numbered.push({ name: factor.name, index, groups });
  }
  return numbered;
}

/**
 * Whether each inner group lies in one outer group.
 * @internal
 */
export function nestedIn(inner: Int32Array, outer: Int32Array, innerGroups: number): boolean {
  const home = new Int32Array(innerGroups).fill(-1);
  for (let i = 0; i < inner.length; i++) {
    const group = inner[i]!;
    if (home[group] === -1) home[group] = outer[i]!;
    else if (home[group] !== outer[i]) return false;
  }
  return true;
}
