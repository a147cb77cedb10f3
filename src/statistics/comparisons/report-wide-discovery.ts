import { benjaminiHochbergAdjustment } from "./p-value-adjustments.ts";

/** One test of the report: the question it belongs to and what it is about. */
export interface ReportedTest {
  /** the question's id */
  id: string;
  /** the estimate's label */
  label: string;
  /** two-sided, 0 to 1 */
  p: number;
}

/** What stands when all tests of a report are looked at together. */
export interface ReportWideDiscovery {
  /** the share of false ones among the findings that stand is expected to be at most this */
  rate: number;
  /** tests looked at */
  tests: number;
  /** those whose adjusted p is at most the rate, smallest first */
  standing: (ReportedTest & { adjustedP: number })[];
  /** the rest, smallest first */
  notStanding: (ReportedTest & { adjustedP: number })[];
}

/**
 * Which findings of a whole report stand once it is allowed for that many questions were asked of one set of trays.
 * @param tests every estimate with a p, in any order
 * @param rate accepted share of false ones among the findings, above 0 and below 1
 * @returns the findings that stand and those that do not; both empty for no tests
 * @throws RangeError if a p lies outside 0 to 1 or the rate outside its range
 * @source Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57(1):289-300; holds for independent or
 *   positively dependent tests
 * @example reportWideDiscovery([{ id: "a", label: "x", p: 0.01 }, { id: "b", label: "y", p: 0.5 }], 0.05).standing.length // 1
 */
export function reportWideDiscovery(tests: ReadonlyArray<ReportedTest>, rate: number): ReportWideDiscovery {
  if (!(rate > 0 && rate < 1)) {
    throw new RangeError(`reportWideDiscovery: the rate must be above 0 and below 1; received ${rate}`);
  }
  const adjusted = tests.length === 0 ? [] : benjaminiHochbergAdjustment(tests.map(({ p }) => p));
  const judged = tests
    .map((test, index) => ({ ...test, adjustedP: adjusted[index]! }))
    .sort((a, b) => a.adjustedP - b.adjustedP || a.p - b.p);
  return {
    rate,
    tests: tests.length,
    standing: judged.filter(({ adjustedP }) => adjustedP <= rate),
    notStanding: judged.filter(({ adjustedP }) => adjustedP > rate),
  };
}
