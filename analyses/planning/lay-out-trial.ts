import {
  latinSquareOverPlaces,
  randomisedBlocks,
  splitPlotOverChambers,
  type TrialPlan,
} from "../../src/planning/trial-plan.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { WantedLayout } from "./trial-wishes.ts";

/** What is to be laid out. */
export interface LayOutInput {
  layout: WantedLayout;
  /** cells of each arm, by column of the sheet */
  arms: ReadonlyArray<Record<string, string>>;
  /** trays of each arm in each cook, and chamber */
  traysPerArm: number;
  cooks: ReadonlyArray<string>;
  traysPerLoad: number;
  seed: number;
  prefix: string;
  /** for a split plot: chambers, and the temperature each setting stands for */
  chambers: ReadonlyArray<string>;
  fruitingCelsius: ReadonlyArray<number>;
}

/** Numbers of a sheet without the tails of binary fractions. */
const typed = (value: number): string => String(Number(value.toPrecision(6)));

/**
 * Lays a trial out at random from a seed.
 * @throws RangeError as `randomisedBlocks`, `latinSquareOverPlaces` and `splitPlotOverChambers`
 */
export function layOutTrial(input: LayOutInput): TrialPlan {
  const { layout, arms, traysPerArm, cooks, traysPerLoad, seed, prefix, chambers, fruitingCelsius } = input;
  const random = seededRandom(seed);
  const base = { arms, cooks, traysPerLoad, seed, random, prefix };
  if (layout === "latin") return latinSquareOverPlaces(base);
  if (layout === "blocks") return randomisedBlocks({ ...base, traysPerArm });
  return splitPlotOverChambers({
    ...base,
    traysPerArm,
    chambers,
    settings: fruitingCelsius.map((celsius) => ({ fruiting_c: typed(celsius) })),
  });
}
