import { seededRandom } from "../../statistics/random/seeded-random.ts";
import { requireCount, requireFinite, requirePositive } from "../../statistics/require-numbers.ts";
import { allPrices } from "./all-prices.ts";
import { bestPer } from "./best-per.ts";
import { weighedCells } from "./cell-sums.ts";
import { type ChosenDose, chooseDose } from "./choose-dose.ts";
import { curveDraws } from "./curve-draws.ts";
import { dayDraws } from "./day-draws.ts";
import type { DoseDecision, DoseEvidence, DoseWarning, NoDoseDecision } from "./dose-facts.ts";
import { type DoseGrid, doseGrid } from "./dose-grid.ts";
import type { CertaintyCap, DoseCertainty, DoseQuestion } from "./dose-tray.ts";
import { expectedDoses } from "./expected-doses.ts";
import { lossDraws } from "./loss-draws.ts";
import { type MoneyDraws, moneyDraws } from "./money-draws.ts";
import { doseEdges, nextSteps } from "./next-steps.ts";
import { seenDoses } from "./seen-doses.ts";
import { testedDoses, usualStep } from "./tested-doses.ts";
import { yieldMixture } from "./yield-mixture.ts";
import { yieldPairs } from "./yield-pairs.ts";

/** How often the doses not ruled out hold the best one of the range, by the simulation in test/bench. */
export const measuredCoverage = 0.96;
/** Fewer doses than this are never settled: a peak between them would not show. */
const dosesToSettle = 4;
const worstFirst: ReadonlyArray<DoseCertainty> = ["cannot tell", "open", "leaning", "settled"];

/**
 * Which dose to use and how sure that is: one object that every answer about dose reads.
 * @param question finished trays, prices, caps from outside and settings; see {@link DoseQuestion} for units
 * @returns the decision, or why there is none; what was seen is in both
 * @throws RangeError if a number is not finite or outside its range, naming it
 * @source Gramwright's own method; its parts name theirs
 * @example doseDecision({ trays: [{ dose: 3, cook: "A", lost: false, grams: 24 }, ...], prices: { perGram: 0.3 } })
 */
export function doseDecision(question: DoseQuestion): DoseDecision | NoDoseDecision {
  checkQuestion(question);
  const { trays, settings = {}, work } = question;
  const highest = trays.reduce((most, { dose }) => Math.max(most, dose), Number.NEGATIVE_INFINITY);
  const { tolerance = 0.02, seed = 1, draws = 4000, step = usualStep(highest) } = settings;
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
  const gramsBring = prices.perGram > 0;
  const chosen = chooseDose(money, grid, tolerance, gramsBring && !curves.upDownUp);
  const expected = expectedDoses(grid, curves, losses, money, chosen);
  const { use, bestTested, notRuledOut, asGood, noDifference, risk, meanLeft } = chosen;
  const at = (place: number): number => grid.doses[place]!;
  const [low, high] = [at(notRuledOut[0]), at(notRuledOut[1])];
  const ruledOut = doses.filter((dose) => dose < low || dose > high);
  const certaintyBeforeCaps = ownCertainty(chosen, doses.length, ruledOut.length, gramsBring, curves.upDownUp);
  const warnings: DoseWarning[] = [
    ...(curves.upDownUp ? (["up-down-up"] as const) : []),
    ...(low === high ? (["one-dose-left"] as const) : []),
    ...(losses.noneLost ? (["none-lost"] as const) : []),
    ...(dated === undefined ? (["no-days"] as const) : []),
    ...(gramsBring ? [] : (["grams-bring-nothing"] as const)),
  ];
  return {
    kind: "decision",
    priced: question.prices !== undefined,
    doses,
    seen,
    expected,
    use: {
      dose: at(use),
      tested: grid.tested.includes(use),
      left: expected[use]!.left,
      income: money.income[use]!,
      noDifference,
      over: grid.tested.includes(use)
        ? undefined
        : { dose: at(bestTested), difference: meanLeft[use]! - meanLeft[bestTested]! },
    },
    risk,
    notRuledOut: { low, high, coverage: measuredCoverage, ruledOut },
    asGood: gramsBring && asGood[0] < asGood[1] ? { low: at(asGood[0]), high: at(asGood[1]) } : undefined,
    hardlyMatters: gramsBring && asGood[0] === grid.first && asGood[1] === grid.last,
    edges: doseEdges(chosen, grid, money),
    nextSteps: nextSteps(chosen, grid, money),
    certaintyBeforeCaps,
    ...capped(certaintyBeforeCaps, question.caps ?? []),
    nonePays: question.prices !== undefined && meanLeft[use]! <= 0,
    gap: widestGap(doses, step, at(use)),
    yield: yieldPairs(curves, grid),
    per: bestPer(chosen, grid, money),
    warnings,
    leftOut,
    settings: { step, tolerance, seed, draws },
    oneTop: curves.oneTop,
    evidence: {
      ...evidenceOf(grid, money, meanLeft),
      trayVariance: curves.trayVariance,
      cellRatio: curves.cellRatio,
      perGram: prices.perGram,
      seed,
    },
  };
}

function checkQuestion({ trays, prices, work, settings = {} }: DoseQuestion): void {
  const name = "doseDecision";
  for (const [of, numbers] of [
    ["prices", prices],
    ["work", work],
  ] as const) {
    for (const [key, value] of Object.entries(numbers ?? {}))
      if (value !== undefined) requireFinite(name, `${of}.${key}`, [value]);
  }
  if (work !== undefined && !(work.hoursPerStartedTray > 0 && work.hoursPerGoodTray >= 0 && work.hoursPerGram >= 0)) {
    throw new RangeError(`${name}: hours must be 0 or more and those of a started tray above 0`);
  }
  for (const tray of trays) {
    requireFinite(name, "dose, grams, days", [tray.dose, tray.grams ?? 0, tray.days ?? 0]);
    requireCount(name, "trays of a record", tray.trays ?? 1, 1);
  }
  if (settings.step !== undefined) requirePositive(name, "step", settings.step);
  if (settings.tolerance !== undefined && !(settings.tolerance >= 0)) {
    throw new RangeError(`${name}: tolerance must be 0 or more; received ${settings.tolerance}`);
  }
  requireCount(name, "draws", settings.draws ?? 4000, 100);
}

/**
 * How far the fit by itself lets the decision go. A best dose is settled only where another is ruled out: where all do about
 * as well nothing is best, and `hardlyMatters` says so.
 */
function ownCertainty(
  { risk, noDifference }: ChosenDose,
  doses: number,
  ruledOut: number,
  gramsBring: boolean,
  upDownUp: boolean,
): DoseCertainty {
  if (ruledOut === 0) return "open";
  const smallRisk = risk.high <= noDifference;
  return doses >= dosesToSettle && gramsBring && !upDownUp && smallRisk ? "settled" : "leaning";
}

/** The lowest of the fit's own certainty and the caps, with the caps that lower it. */
function capped(
  own: DoseCertainty,
  all: ReadonlyArray<CertaintyCap>,
): { caps: CertaintyCap[]; certainty: DoseCertainty } {
  const caps = all.filter(({ atMost }) => worstFirst.indexOf(atMost) < worstFirst.indexOf(own));
  const lowest = Math.min(worstFirst.indexOf(own), ...caps.map(({ atMost }) => worstFirst.indexOf(atMost)));
  return { caps, certainty: worstFirst[lowest]! };
}

/** With two or three doses, the widest stretch in which a dose could have been tried; of equal ones the nearer to `use`. */
function widestGap(doses: ReadonlyArray<number>, step: number, use: number): DoseDecision["gap"] {
  if (doses.length >= dosesToSettle) return undefined;
  const distance = ({ low, high }: { low: number; high: number }): number => Math.abs((low + high) / 2 - use);
  const gaps = doses
    .slice(1)
    .map((high, i) => ({ low: doses[i]!, high }))
    .filter(({ low, high }) => high - low > 1.5 * step);
  const widest = gaps.reduce((most, { low, high }) => Math.max(most, high - low), 0);
  const wide = gaps.filter(({ low, high }) => high - low > 0.999 * widest);
  return wide.length === 0 ? undefined : wide.reduce((near, gap) => (distance(gap) < distance(near) ? gap : near));
}

/** Covariance of money left over the range tried with that at the tested doses. */
function evidenceOf(
  grid: DoseGrid,
  { left, count }: MoneyDraws,
  meanLeft: Float64Array,
): Pick<DoseEvidence, "tested" | "first" | "last" | "covariance"> {
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
  return { tested: grid.tested, first: grid.first, last: grid.last, covariance };
}
