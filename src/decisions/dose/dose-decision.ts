import { seededRandom } from "../../statistics/random/seeded-random.ts";
import { type AllPrices, allPrices } from "./all-prices.ts";
import { bandOf } from "./band-of.ts";
import { bestPer } from "./best-per.ts";
import { checkQuestion } from "./check-question.ts";
import { type ChosenDose, chooseDose } from "./choose-dose.ts";
import type { CurveDraws } from "./curve-draws.ts";
import { dayDraws } from "./day-draws.ts";
import type { DoseDecision, DoseEvidence, DoseWarning, NoDoseDecision } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";
import type { DoseQuestion } from "./dose-tray.ts";
import { doseYields, leastWeighed } from "./dose-yields.ts";
import { expectedDoses } from "./expected-doses.ts";
import { type MoneyDraws, moneyDraws } from "./money-draws.ts";
import { doseEdges, nextSteps } from "./next-steps.ts";
import { capped, ownCertainty, widestGap } from "./own-certainty.ts";
import { seenDoses } from "./seen-doses.ts";

/** How often the doses not ruled out hold the best one of the range, by the simulation in test/bench. */
const measuredCoverage = 0.97;

/**
 * Which dose to use and how sure that is: one object that every answer about dose reads.
 * @param question finished trays, prices, caps from outside and settings; see {@link DoseQuestion} for units
 * @param yields what {@link doseYields} gave for the same trays and settings, where it was worked out before
 * @returns the decision, or why there is none; what was seen is in both
 * @throws RangeError if a number is not finite or outside its range, naming it
 * @source Gramwright's own method; its parts name theirs
 * @example doseDecision({ trays: doseTrays, prices: { perGram: 0.3 } }).kind // "decision"
 */
export function doseDecision(question: DoseQuestion, yields = doseYields(question)): DoseDecision | NoDoseDecision {
  checkQuestion(question);
  const { settings = {}, work } = question;
  const { tolerance = 0.02 } = settings;
  const { tested, step, seed, draws } = yields;
  const prices = allPrices(question.prices);
  const seen = seenDoses(tested, prices);
  const leftOut = { withoutCook: tested.withoutCook };
  if (yields.kind === "cannot-tell") {
    const { reason, weighed } = yields;
    return { kind: "cannot-tell", reason, seen, weighed, needed: leastWeighed, leftOut };
  }
  const { grid, curves, losses } = yields;
  // a stream of its own, so that what was drawn of yields is the same whatever is asked of it
  const random = seededRandom((seed + 1) % Number.MAX_SAFE_INTEGER);
  const dated = dayDraws(tested, grid.doses, curves.count, random);
  const money = moneyDraws(grid.doses, curves, losses, dated, prices, work);
  const isOpen = isCappedOpen(question);
  const chosen = chooseDose(money, grid, tolerance, prices.perGram > 0 && !curves.upDownUp && !isOpen);
  const warnings: DoseWarning[] = [];
  if (curves.upDownUp) warnings.push("up-down-up");
  if (chosen.notRuledOut[0] === chosen.notRuledOut[1] && !isOpen) warnings.push("one-dose-left");
  if (losses.noneLost) warnings.push("none-lost");
  if (dated === undefined) warnings.push("no-days");
  if (prices.perGram <= 0) warnings.push("grams-bring-nothing");
  return {
    kind: "decision",
    priced: question.prices !== undefined,
    doses: tested.doses,
    seen,
    expected: expectedDoses(yields, money, chosen),
    ...choiceOf(question, chosen, grid, money, warnings, step),
    edges: doseEdges(chosen, grid, money),
    nextSteps: nextSteps(chosen, grid, money),
    per: bestPer(chosen, grid, money),
    warnings,
    leftOut,
    settings: { step: grid.step, tolerance, seed, draws },
    oneTop: curves.oneTop,
    evidence: evidenceOf(grid, money, chosen.meanLeft, curves, prices, seed),
  };
}

/** Something outside the fit leaves the doses open: then none is ruled out, and none that was not tried is advised. */
const isCappedOpen = ({ caps = [] }: DoseQuestion): boolean => caps.some(({ atMost }) => atMost !== "leaning");

/** The choice itself: the dose, what it risks, the doses beside it and how certain that is. */
function choiceOf(
  question: DoseQuestion,
  chosen: ChosenDose,
  grid: DoseGrid,
  money: MoneyDraws,
  warnings: ReadonlyArray<DoseWarning>,
  step: number,
) {
  const { prices, caps = [] } = question;
  const { use, bestTested, notRuledOut, asGood, noDifference, risk, meanLeft } = chosen;
  const at = (place: number): number => grid.doses[place]!;
  const doses = grid.tested.map(at);
  const [low, high] = [at(notRuledOut[0]), at(notRuledOut[1])];
  const ruledOut = doses.filter((dose) => dose < low || dose > high);
  const isOpen = isCappedOpen(question);
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
    notRuledOut: isOpen
      ? { low: doses[0]!, high: doses.at(-1)!, coverage: measuredCoverage, ruledOut: [] }
      : { low, high, coverage: measuredCoverage, ruledOut },
    asGood: gramsBring && asGood[0] < asGood[1] ? { low: at(asGood[0]), high: at(asGood[1]) } : undefined,
    hardlyMatters: gramsBring && asGood[0] === grid.first && asGood[1] === grid.last,
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
