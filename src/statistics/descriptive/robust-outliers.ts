import { medianAbsoluteDeviation } from "./median-absolute-deviation.ts";
import { median } from "./quantile.ts";

/** A value with the two things that explain part of it. */
export interface ExplainedValue {
  tray: string;
  value: number;
  /** dose or other treatment */
  row: string;
  /** cook */
  column: string;
}

/** A value far from what its dose and cook lead one to expect. */
export interface Outlier extends ExplainedValue {
  expected: number;
  /** distance in robust standard deviations */
  z: number;
}

const sweeps = 4;

/** Takes the median of each group out of the residuals. */
function sweep(residuals: Float64Array, groups: ReadonlyArray<ReadonlyArray<number>>): void {
  for (const group of groups) {
    const middle = median(group.map((index) => residuals[index]!));
    for (const index of group) residuals[index]! -= middle;
  }
}

const grouped = (labels: ReadonlyArray<string>): number[][] => {
  const groups = new Map<string, number[]>();
  labels.forEach((label, index) => {
    const group = groups.get(label) ?? [];
    groups.set(label, group);
    group.push(index);
  });
  return [...groups.values()];
};

/**
 * Values that stand far from what their row (dose) and column (cook) lead one to expect, by medians that the odd value cannot
 * pull along.
 * @param threshold robust z beyond which a value is named
 * @returns the furthest first; nothing for fewer than 8 values or where over half of them do not differ from what is expected
 * @source median polish: Tukey 1977, Exploratory Data Analysis; modified z: Iglewicz and Hoaglin 1993, How to Detect and
 *   Handle Outliers; NIST/SEMATECH e-Handbook, section 1.3.5.17. The scale is widened by √(n / (n - medians taken out)).
 * @example robustOutliers([4, 5, 6, 5, 4, 6, 5, 40].map((value) => ({ value, row: "3 mL", column: "cook A" })), 3.5).length // 1
 */
export function robustOutliers(values: ReadonlyArray<ExplainedValue>, threshold: number): Outlier[] {
  const rows = grouped(values.map(({ row }) => row));
  const columns = grouped(values.map(({ column }) => column));
  const free = values.length - rows.length - columns.length + 1;
  if (values.length < 8 || free < 4) return [];
  const residuals = Float64Array.from(values, ({ value }) => value);
  for (let round = 0; round < sweeps; round++) {
    sweep(residuals, columns);
    sweep(residuals, rows);
  }
  const { scaled } = medianAbsoluteDeviation(Array.from(residuals));
  const scale = scaled * Math.sqrt(values.length / free);
  const size = values.reduce((most, { value }) => Math.max(most, Math.abs(value)), 0);
  if (scale <= 1e-10 * size) return [];
  return values
    .map((one, index) => ({ ...one, expected: one.value - residuals[index]!, z: residuals[index]! / scale }))
    .filter(({ z }) => Math.abs(z) > threshold)
    .sort((a, b) => Math.abs(b.z) - Math.abs(a.z));
}
