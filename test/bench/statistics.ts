import { springTrays, summerTrays } from "../../data-samples/demo-book.ts";
import { fitMixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { permuteSlope } from "../../src/statistics/resampling/permute-slope.ts";
import { medianMilliseconds, printRatio } from "./ratio.ts";

const trays = [...springTrays(), ...summerTrays()].filter(({ outcome }) => outcome === "good").slice(0, 60);

/** What a naive loop takes for the same number of draws: pick n values with replacement and add them up, again and again. */
function naiveResampling(values: ReadonlyArray<number>, rounds: number): number {
  const random = seededRandom(1);
  let total = 0;
  for (let round = 0; round < rounds; round++) {
    for (let draw = 0; draw < values.length; draw++) total += values[random.integer(values.length)]!;
  }
  return total;
}

/** A mixed model's data: cooks of 50 trays, three doses inside each. */
function simulatedCooks(count: number) {
  const random = seededRandom(7);
  const cooks = Array.from({ length: count / 50 }, () => random.normal());
  return {
    response: Array.from(
      { length: count },
      (_, row) => 20 + (row % 3) + cooks[Math.floor(row / 50)]! + random.normal(),
    ),
    terms: [
      { kind: "factor" as const, name: "dose", values: Array.from({ length: count }, (_, row) => `d${row % 3}`) },
    ],
    random: [{ name: "cook", groups: Array.from({ length: count }, (_, row) => `c${Math.floor(row / 50)}`) }],
  };
}

/** Permutation and mixed model at the sizes the project asks for. */
export async function benchStatistics(): Promise<void> {
  const rounds = 10_000;
  const responses = trays.map(({ dryGrams }) => dryGrams!);
  const naive = await medianMilliseconds(() => naiveResampling(responses, rounds), 5);
  const permutations = await medianMilliseconds(
    () =>
      permuteSlope(
        {
          response: responses,
          amount: trays.map(({ doseMillilitres }) => doseMillilitres),
          strata: trays.map(({ batch }) => batch),
        },
        { draws: rounds, seed: 1 },
      ),
    5,
  );
  printRatio({
    work: `${rounds} stratified permutations of 60 trays`,
    baseline: "naive loop drawing as many trays",
    milliseconds: permutations,
    baselineMilliseconds: naive,
  });
  const [small, large] = [simulatedCooks(100_000), simulatedCooks(200_000)];
  const smallTime = await medianMilliseconds(() => fitMixedModel(small), 3);
  const largeTime = await medianMilliseconds(() => fitMixedModel(large), 3);
  printRatio({
    work: "mixed model, 200,000 trays in 4,000 cooks",
    baseline: "100,000 trays in 2,000 cooks",
    milliseconds: largeTime,
    baselineMilliseconds: smallTime,
    goal: 2.3,
  });
}
