import type { StratifiedPermutation } from "../../src/statistics/resampling/permute-layout.ts";
import { permuteBetweenGroups } from "../../src/statistics/resampling/stratified-permutation.ts";
import type { UnitValue } from "./unit-values.ts";

const draws = 1999;

const everyDealUpTo = 50_000;

/**
 * Treatments dealt out again within blocks, every way there is or many drawn ones: how often would levels differ as much.
 * @throws RangeError where blocks and levels leave nothing to compare
 */
export function permutationTest(values: ReadonlyArray<UnitValue>, seed: number): StratifiedPermutation {
  const blocks = values.map(({ block }) => block);
  return permuteBetweenGroups(
    {
      response: values.map(({ value }) => value),
      group: values.map(({ arm }) => arm),
      ...(blocks.every((block) => block !== undefined) ? { strata: blocks as string[] } : {}),
    },
    { seed, draws, exactUpTo: values.length <= tinyTrial ? everyDealUpTo : draws },
  );
}

/** Up to so many units, the shape of their scatter cannot be checked, and the verdict rests on dealing them again. */
export const tinyTrial = 12;

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));

/**
 * The smallest p that dealing these units again can give, however far apart they fall: levels of the same numbers in every
 * block can swap names without changing how far apart they are.
 * @param possible different ways to deal
 */
export function leastPossibleP(values: ReadonlyArray<UnitValue>, possible: number): number {
  const counts = new Map<string, Map<string, number>>();
  for (const { arm, block = "" } of values) {
    const own = counts.get(arm) ?? new Map<string, number>();
    counts.set(arm, own.set(block, (own.get(block) ?? 0) + 1));
  }
  const alike = new Map<string, number>();
  for (const own of counts.values()) {
    const key = JSON.stringify([...own].sort(([a], [b]) => (a < b ? -1 : 1)));
    alike.set(key, (alike.get(key) ?? 0) + 1);
  }
  return Math.min(1, [...alike.values()].reduce((product, same) => product * factorial(same), 1) / possible);
}
