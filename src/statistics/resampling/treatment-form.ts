import type { PermutationLayout } from "./permutation-layout.ts";

/**
 * The sum of squares between treatments, adjusted for strata, as a function of the treatment sums of the centred responses:
 * T' C⁻¹ T with one treatment left out, C being the information about the treatments that the strata leave.
 * @throws RangeError if strata do not connect the treatments
 * @source Kempthorne 1952, The Design and Analysis of Experiments, chapter 6 (from memory)
 * @internal
 */
export function treatmentForm(routine: string, layout: PermutationLayout): (sums: Float64Array) => number {
  const { starts, codeCount, counts } = layout;
  const size = codeCount - 1;
  const factor = new Float64Array(size * size);
  for (let s = 0; s + 1 < starts.length; s++) {
    const inStratum = starts[s + 1]! - starts[s]!;
    for (let a = 0; a < size; a++) {
      const own = counts[s * codeCount + a]!;
      factor[a * size + a]! += own;
      for (let b = 0; b < size; b++) factor[a * size + b]! -= (own * counts[s * codeCount + b]!) / inStratum;
    }
  }
  // Cholesky in place, lower triangle
  for (let j = 0; j < size; j++) {
    const whole = factor[j * size + j]!;
    let diagonal = whole;
    for (let k = 0; k < j; k++) diagonal -= factor[j * size + k]! ** 2;
    if (!(diagonal > 1e-9 * Math.max(whole, 1e-9))) {
      throw new RangeError(`${routine}: strata must connect all treatments; received a layout in which they do not`);
    }
    const root = Math.sqrt(diagonal);
    factor[j * size + j] = root;
    for (let i = j + 1; i < size; i++) {
      let entry = factor[i * size + j]!;
      for (let k = 0; k < j; k++) entry -= factor[i * size + k]! * factor[j * size + k]!;
      factor[i * size + j] = entry / root;
    }
  }
  const solved = new Float64Array(size);
  return (sums) => {
    let squares = 0;
    for (let i = 0; i < size; i++) {
      let value = sums[i]!;
      for (let k = 0; k < i; k++) value -= factor[i * size + k]! * solved[k]!;
      value /= factor[i * size + i]!;
      solved[i] = value;
      squares += value * value;
    }
    return squares;
  };
}
