import { seededRandom } from "../../statistics/random/seeded-random.ts";
import { bandOf } from "./band-of.ts";
import { weighedCells } from "./cell-sums.ts";
import { checkQuestion } from "./check-question.ts";
import { type CurveDraws, curveDraws } from "./curve-draws.ts";
import type { Band, NoDoseDecision } from "./dose-facts.ts";
import { type DoseGrid, doseGrid } from "./dose-grid.ts";
import type { DoseQuestion } from "./dose-tray.ts";
import { type LossDraws, lossDraws } from "./loss-draws.ts";
import { type TestedDoses, testedDoses, usualStep } from "./tested-doses.ts";
import { yieldMixture } from "./yield-mixture.ts";

/** Two trays are a guess, not a comparison. Common practice, no source. */
export const leastWeighed = 3;

/** The book sorted by dose and cook, and the settings in use. */
interface Sorted {
  tested: TestedDoses;
  step: number;
  seed: number;
  draws: number;
}

/** Yields and losses over dose, drawn: the half of a decision in which there is no price. */
export interface DoseYields extends Sorted {
  kind: "yields";
  grid: DoseGrid;
  curves: CurveDraws;
  losses: LossDraws;
  /** grams of a good tray at each dose of the grid */
  grams: Band[];
}

/** Why nothing is drawn. */
export interface NoDoseYields extends Sorted {
  kind: "cannot-tell";
  reason: NoDoseDecision["reason"];
  /** weighed records */
  weighed: number;
}

/**
 * Draws the yield of a good tray and the share of lost ones over dose.
 * @param question trays and settings of a decision; its prices are not looked at
 * @throws RangeError as {@link doseDecision}
 * @source Gramwright's own method; its parts name theirs
 */
export function doseYields(question: Pick<DoseQuestion, "trays" | "settings">): DoseYields | NoDoseYields {
  checkQuestion(question);
  const { trays, settings = {} } = question;
  const highest = trays.reduce((most, { dose }) => Math.max(most, dose), Number.NEGATIVE_INFINITY);
  const lowest = trays.reduce((least, { dose }) => Math.min(least, dose), Number.POSITIVE_INFINITY);
  const { seed = 1, draws = 4000, step = usualStep(lowest, highest) } = settings;
  const tested = testedDoses(trays, step);
  const { doses } = tested;
  const cells = weighedCells(tested);
  const sorted = { tested, step, seed, draws };
  const refuse = (reason: NoDoseDecision["reason"]): NoDoseYields => {
    return { kind: "cannot-tell", reason, weighed: cells.records, ...sorted };
  };
  if (doses.length === 0) return refuse("no-trays");
  if (doses.length === 1) return refuse("one-dose");
  if (cells.records < leastWeighed) return refuse("too-few-weighed");
  const grid = doseGrid(doses, step, settings.most);
  const mixture = yieldMixture(cells, doses, grid);
  const unexplained = mixture.components.reduce((least, { rss }) => Math.min(least, rss), Number.POSITIVE_INFINITY);
  // trays that differ by less than a millionth of their weight were not weighed one by one
  if (!(unexplained - cells.supposed > 1e-12 * cells.records * cells.centre ** 2)) return refuse("weights-do-not-vary");
  const random = seededRandom(seed);
  const curves = curveDraws(mixture, draws, random);
  const losses = lossDraws(tested, grid.doses, curves.count, random);
  const room = new Float64Array(curves.count);
  // a tray gives no less than nothing
  const grams = grid.doses.map((_, at) => {
    const { mean, low, high } = bandOf(curves.grams, at, room);
    return { mean: Math.max(0, mean), low: Math.max(0, low), high: Math.max(0, high) };
  });
  return { kind: "yields", ...sorted, grid, curves, losses, grams };
}
