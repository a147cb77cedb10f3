import { seededRandom } from "../../statistics/random/seeded-random.ts";
import { type AllPrices, allPrices } from "./all-prices.ts";
import { bestPer } from "./best-per.ts";
import { weighedCells } from "./cell-sums.ts";
import { checkQuestion } from "./check-question.ts";
import { type ChosenDose, chooseDose } from "./choose-dose.ts";
import { type CurveDraws, curveDraws } from "./curve-draws.ts";
import { dayDraws } from "./day-draws.ts";
import type { DoseDecision, DoseEvidence, DoseWarning, NoDoseDecision } from "./dose-facts.ts";
import { type DoseGrid, doseGrid } from "./dose-grid.ts";
import type { DoseQuestion } from "./dose-tray.ts";
import { bandOf, expectedDoses } from "./expected-doses.ts";
import { lossDraws } from "./loss-draws.ts";
import { type MoneyDraws, moneyDraws } from "./money-draws.ts";
import { doseEdges, nextSteps } from "./next-steps.ts";
import { capped, ownCertainty, widestGap } from "./own-certainty.ts";
import { seenDoses } from "./seen-doses.ts";
import { testedDoses, usualStep } from "./tested-doses.ts";
import { yieldMixture } from "./yield-mixture.ts";
import { yieldPairs } from "./yield-pairs.ts";

/** How often the doses not ruled out hold the best one of the range, by the simulation in test/bench. */
export const measuredCoverage = 0.97;

/**
 * Which dose to use and how sure that is: one object that every answer about dose reads.
 * @param question finished trays, prices, caps from outside and settings; see {@link DoseQuestion} for units
 * @returns the decision, or why there is none; what was seen is in both
 * @throws RangeError if a number is not finite or outside its range, naming it
 * @source Gramwright's own method; its parts name theirs
 * @example doseDecision({ trays: doseTrays, prices: { perGram: 0.3 } }).kind // "decision"
 */
export function doseDecision(question: DoseQuestion): DoseDecision | NoDoseDecision {
  checkQuestion(question);
  const { trays, settings = {}, work } = question;
  const highest = trays.reduce((most, { dose }) => Math.max(most, dose), Number.NEGATIVE_INFINITY);
  const lowest = trays.reduce((least, { dose }) => Math.min(least, dose), Number.POSITIVE_INFINITY);
  const { tolerance = 0.02, seed = 1, draws = 4000, step = usualStep(lowest, highest) } = settings;
  const prices = allPrices(question.prices);
  const tested = testedDoses(trays, step);
  const { doses } = tested;
  const seen = seenDoses(tested, prices);
  const cells = weighedCells(tested);
  const leftOut = { withoutCook: tested.withoutCook };
  const refuse = (reason: NoDoseDecision["reason"]): NoDoseDecision => {
    return { kind: "cannot-tell", reason, seen, weighed: cells.records, needed: doses.length + 3, leftOut };
  };
  if (doses.length === 0) return refuse("no-trays");
  if (doses.length === 1) return refuse("one-dose");
  if (cells.records < doses.length + 3) return refuse("too-few-weighed");

  const grid = doseGrid(doses, step);
  const mixture = yieldMixture(cells, doses, grid);
  const unexplained = mixture.components.reduce((least, { rss }) => Math.min(least, rss), Number.POSITIVE_INFINITY);
  // trays that differ by less than a millionth of their weight were not weighed one by one
  if (!(unexplained > 1e-12 * cells.records * cells.centre ** 2)) return refuse("weights-do-not-vary");
  const random = seededRandom(seed);
  const curves = curveDraws(mixture, draws, random);
  const losses = lossDraws(tested, grid.doses, curves.count, random);
  const dated = dayDraws(tested, grid.doses, curves.count, random);
  const money = moneyDraws(grid.doses, curves, losses, dated, prices, work);
  const chosen = chooseDose(money, grid, tolerance, prices.perGram > 0 && !curves.upDownUp);
  const warnings: DoseWarning[] = [];
  if (curves.upDownUp) warnings.push("up-down-up");
  if (chosen.notRuledOut[0] === chosen.notRuledOut[1]) warnings.push("one-dose-left");
  if (losses.noneLost) warnings.push("none-lost");
  if (dated === undefined) warnings.push("no-days");
  if (prices.perGram <= 0) warnings.push("grams-bring-nothing");
  return {
    kind: "decision",
    priced: question.prices !== undefined,
    doses,
    seen,
    expected: expectedDoses(grid, curves, losses, money, chosen),
    ...choiceOf(question, chosen, grid, money, warnings, step),
    edges: doseEdges(chosen, grid, money),
    nextSteps: nextSteps(chosen, grid, money),
    yield: yieldPairs(curves, grid),
    per: bestPer(chosen, grid, money),
    warnings,
    leftOut,
    settings: { step, tolerance, seed, draws },
    oneTop: curves.oneTop,
    evidence: evidenceOf(grid, money, chosen.meanLeft, curves, prices, seed),
  };
}

/** The choice itself: the dose, what it risks, the doses beside it and how certain that is. */
function choiceOf(
  { prices, caps = [] }: DoseQuestion,
  chosen: ChosenDose,
  grid: DoseGrid,
  money: MoneyDraws,
  warnings: ReadonlyArray<DoseWarning>,
  step: number,
) {
  const { use, bestTested, notRuledOut, asGood, noDifference, risk, meanLeft } = chosen;
  const at = (place: number): number => grid.doses[place]!;
  const doses = grid.tested.map(at);
  const [low, high] = [at(notRuledOut[0]), at(notRuledOut[1])];
  const ruledOut = doses.filter((dose) => dose < low || dose > high);
  const gramsBring = !warnings.includes("grams-bring-nothing");
  const tested = grid.tested.includes(use);
  const maySettle = gramsBring && !warnings.includes("up-down-up");
  const own = ownCertainty(chosen, doses.length, ruledOut.length, maySettle);
  return {
    use: {
      dose: at(use),
      tested,
      left: bandOf(money.left, use, new Float64Array(money.count)),
      income: money.income[use]!,
      noDifference,
      over: tested ? undefined : { dose: at(bestTested), difference: meanLeft[use]! - meanLeft[bestTested]! },
    },
    risk,
    notRuledOut: { low, high, coverage: measuredCoverage, ruledOut },
    asGood: gramsBring && asGood[0] < asGood[1] ? { low: at(asGood[0]), high: at(asGood[1]) } : undefined,
    hardlyMatters: gramsBring && asGood[0] === grid.first && asGood[1] === grid.last,
    certaintyBeforeCaps: own,
    ...capped(own, caps),
    nonePays: prices !== undefined && meanLeft[use]! <= 0,
    gap: widestGap(doses, step, at(use)),
  };
}

/** What later questions need of the draws, covariances of money left among it. */
function evidenceOf(
  grid: DoseGrid,
  { left, count }: MoneyDraws,
  meanLeft: Float64Array,
  { trayVariance, cellRatio }: CurveDraws,
  { perGram }: AllPrices,
  seed: number,
): DoseEvidence {
  const range = Array.from({ length: grid.last - grid.first + 1 }, (_, i) => grid.first + i);
  const covariance = range.map((place) =>
    grid.tested.map((tested) => {
      let sum = 0;
      for (let i = 0; i < count; i++) {
        sum += (left[place * count + i]! - meanLeft[place]!) * (left[tested * count + i]! - meanLeft[tested]!);
      }
      return sum / (count - 1);
    }),
  );
  return {
    tested: grid.tested,
    first: grid.first,
    last: grid.last,
    covariance,
    trayVariance,
    cellRatio,
    perGram,
    seed,
  };
}
