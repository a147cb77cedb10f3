import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { addOuter, type Matrix, zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { symmetricEigen } from "../linear-algebra/symmetric-eigen.ts";
import { requireSameLength } from "../require-numbers.ts";
import { requireSurvivalSample, type SurvivalSample } from "./survival-sample.ts";

/** How differences at each event time are weighted: alike, or by the pooled share still waiting (early ones count more). */
export type LogRankWeighting = "log-rank" | "peto-peto";

/** Comparison of groups of times. */
export interface LogRankTest {
  chiSquare: number;
  df: number;
  p: number;
  /** weighted events seen and expected in each group, in code-point order of the group */
  groups: { group: string; observations: number; observed: number; expected: number }[];
  weighting: LogRankWeighting;
}

/**
 * Tests that groups have the same distribution of time to the event, comparing within blocks when these are given.
 * @param groups group of each observation, two or more different ones
 * @param options blocks: block of each observation, compared only with its own kind; weighting: "log-rank" unless stated
 * @throws RangeError if the sample is bad, lengths differ, there is one group only, or no event happens where groups overlap
 * @source Mantel 1966, Cancer Chemotherapy Reports 50(3):163-170; Peto and Peto 1972, Journal of the Royal Statistical
 *   Society A 135(2):185-207; Fleming and Harrington 1991, Counting Processes and Survival Analysis, chapter 7 (from
 *   memory)
 * @example logRankTest({ times: [1, 2, 3, 4], events: [true, true, true, true] }, ["a", "a", "b", "b"]).p // 0.08955...
 */
export function logRankTest(
  sample: SurvivalSample,
  groups: ReadonlyArray<string>,
  options: { blocks?: ReadonlyArray<string>; weighting?: LogRankWeighting } = {},
): LogRankTest {
  const routine = "logRankTest";
  const { weighting = "log-rank", blocks = groups.map(() => "") } = options;
  requireSurvivalSample(routine, sample);
  requireSameLength(routine, "times", sample.times, "groups", groups);
  requireSameLength(routine, "times", sample.times, "blocks", blocks);
  const names = [...new Set(groups)].sort();
  if (names.length < 2)
    throw new RangeError(`${routine}: groups needs at least 2 different ones; received ${names.length}`);
  const tally = new Tally(sample, groups, names, weighting);
  const byBlock = new Map<string, number[]>();
  blocks.forEach((block, i) => {
    const members = byBlock.get(block);
    if (members === undefined) byBlock.set(block, [i]);
    else members.push(i);
  });
  for (const members of byBlock.values()) tally.addBlock(members);
  const { observed, expected, variance } = tally;
  const { values, vectors } = symmetricEigen(variance);
  const floor = 1e-10 * Math.max(...values);
  let [chiSquare, df] = [0, 0];
  values.forEach((value, k) => {
    if (!(value > floor)) return;
    const along = vectors[k]!.reduce((sum, part, g) => sum + part * (observed[g]! - expected[g]!), 0);
    chiSquare += (along * along) / value;
    df++;
  });
  if (df === 0) {
    throw new RangeError(`${routine}: events must happen while different groups are at risk together; none does`);
  }
  return {
    chiSquare,
    df,
    p: chiSquareUpperTail(chiSquare, df),
    groups: names.map((group, g) => ({
      group,
      observations: groups.filter((name) => name === group).length,
      observed: observed[g]!,
      expected: expected[g]!,
    })),
    weighting,
  };
}

/** Events seen and expected in each group, and the variance of their differences, added up block by block. */
class Tally {
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  readonly variance: Matrix;
  readonly #sample: SurvivalSample;
  /** number of each observation's group */
  readonly #groupOf: number[];
  readonly #weighting: LogRankWeighting;

  constructor(
    sample: SurvivalSample,
    groups: ReadonlyArray<string>,
    names: ReadonlyArray<string>,
    weighting: LogRankWeighting,
  ) {
    const position = new Map(names.map((name, k) => [name, k]));
    this.#sample = sample;
    this.#groupOf = groups.map((group) => position.get(group)!);
    this.#weighting = weighting;
    this.observed = new Float64Array(names.length);
    this.expected = new Float64Array(names.length);
    this.variance = zeroMatrix(names.length, names.length);
  }

  /** @param members places of the block's observations; sorted by time */
  addBlock(members: number[]): void {
    const { times, events: happened } = this.#sample;
    members.sort((a, b) => times[a]! - times[b]!);
    const atRisk = new Float64Array(this.observed.length);
    for (const i of members) atRisk[this.#groupOf[i]!]! += 1;
    let waiting = members.length;
    let pooled = 1;
    for (let start = 0; start < members.length; ) {
      const time = times[members[start]!]!;
      const events = new Float64Array(atRisk.length);
      const leaving = new Float64Array(atRisk.length);
      let end = start;
      for (; end < members.length && times[members[end]!] === time; end++) {
        const group = this.#groupOf[members[end]!]!;
        leaving[group]! += 1;
        if (happened[members[end]!]) events[group]! += 1;
      }
      const total = events.reduce((sum, count) => sum + count, 0);
      if (total > 0) {
        this.#addTime(events, total, atRisk, waiting, this.#weighting === "log-rank" ? 1 : pooled);
        pooled *= 1 - total / waiting;
      }
      for (let g = 0; g < atRisk.length; g++) atRisk[g]! -= leaving[g]!;
      waiting -= end - start;
      start = end;
    }
  }

  #addTime(events: Float64Array, total: number, atRisk: Float64Array, waiting: number, weight: number): void {
    const share = atRisk.map((count) => count / waiting);
    const spread = waiting > 1 ? (weight * weight * total * (waiting - total)) / (waiting - 1) : 0;
    for (let g = 0; g < share.length; g++) {
      this.observed[g]! += weight * events[g]!;
      this.expected[g]! += weight * total * share[g]!;
      this.variance[g]![g]! += spread * share[g]!;
    }
    addOuter(this.variance, -spread, share, share);
  }
}
