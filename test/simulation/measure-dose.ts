import { doseDecision } from "../../src/decisions/dose/index.ts";
import { bestMeanDose, quadraticDose } from "./dose-rivals.ts";
import { type DoseTruth, doseBook, trulyBest, trulyLeft } from "./dose-truths.ts";

/** What was counted over books of one truth; money a tray, shares 0 to 1. */
export interface MeasuredDose {
  truth: DoseTruth;
  books: number;
  /** money given up against the best dose of the range: by the decision, by its best tested dose, by the rivals */
  givenUp: { decision: number; tested: number; quadratic: number; bestMean: number };
  /** what the decision said it gives up, and how often the true loss lay above what it said 1 time in 20 exceeds */
  saidGivenUp: number;
  aboveHigh: number;
  /** books whose range holds the best dose (to within half a step), and its width as a share of the range tried */
  covered: number;
  width: number;
  /** settled books, and those of them whose true loss is within what counts as no difference */
  settled: number;
  settledRight: number;
  /** books with doses "as good", and those of them that hold one that is truly worse by more */
  asGood: number;
  asGoodWrong: number;
  /** chances said that a dose leaves less than the one to use, against what is true: one entry per tenth */
  chances: { said: number; true: number; count: number }[];
  /** the same for the next dose upwards leaving more */
  beyond: { said: number; true: number; count: number };
}

/** Reads `books` seeded books of a truth. @param firstSeed the first of the seeds */
export function measureDose(truth: DoseTruth, books: number, firstSeed = 1): MeasuredDose {
  const best = trulyBest(truth);
  const lossAt = (dose: number): number => best.left - trulyLeft(truth, dose);
  const sum: MeasuredDose = {
    truth,
    books: 0,
    givenUp: { decision: 0, tested: 0, quadratic: 0, bestMean: 0 },
    saidGivenUp: 0,
    aboveHigh: 0,
    covered: 0,
    width: 0,
    settled: 0,
    settledRight: 0,
    asGood: 0,
    asGoodWrong: 0,
    chances: Array.from({ length: 10 }, () => ({ said: 0, true: 0, count: 0 })),
    beyond: { said: 0, true: 0, count: 0 },
  };
  for (let book = 0; book < books; book++) {
    const trays = doseBook(truth, firstSeed + book);
    const decision = doseDecision({ trays, prices: truth.prices });
    if (decision.kind !== "decision") throw new Error(`${truth.name}, seed ${firstSeed + book}: ${decision.reason}`);
    const { use, notRuledOut, asGood, expected, risk, settings } = decision;
    sum.books++;
    sum.givenUp.decision += lossAt(use.dose);
    sum.givenUp.tested += lossAt(use.over?.dose ?? use.dose);
    sum.givenUp.quadratic += lossAt(quadraticDose(trays, truth) ?? bestMeanDose(decision.seen));
    sum.givenUp.bestMean += lossAt(bestMeanDose(decision.seen));
    sum.saidGivenUp += risk.mean;
    if (lossAt(use.dose) > risk.high) sum.aboveHigh++;
    const half = settings.step / 2;
    if (best.dose >= notRuledOut.low - half && best.dose <= notRuledOut.high + half) sum.covered++;
    sum.width += (notRuledOut.high - notRuledOut.low) / (truth.doses.at(-1)! - truth.doses[0]!);
    if (decision.certainty === "settled") {
      sum.settled++;
      if (lossAt(use.dose) <= use.noDifference) sum.settledRight++;
    }
    if (asGood !== undefined) {
      sum.asGood++;
      const worse = expected.some(
        ({ dose }) => dose >= asGood.low && dose <= asGood.high && lossAt(dose) - lossAt(use.dose) > use.noDifference,
      );
      if (worse) sum.asGoodWrong++;
    }
    for (const { dose, beyond, chanceBelowUse } of expected) {
      if (dose === use.dose) continue;
      const less = trulyLeft(truth, dose) < trulyLeft(truth, use.dose);
      const into = beyond ? sum.beyond : sum.chances[Math.min(9, Math.floor(10 * chanceBelowUse))]!;
      if (beyond && dose < use.dose) continue;
      into.count++;
      into.said += beyond ? 1 - chanceBelowUse : chanceBelowUse;
      if (less !== beyond) into.true++;
    }
  }
  const mean = (key: "decision" | "tested" | "quadratic" | "bestMean"): number => sum.givenUp[key] / books;
  return {
    ...sum,
    givenUp: {
      decision: mean("decision"),
      tested: mean("tested"),
      quadratic: mean("quadratic"),
      bestMean: mean("bestMean"),
    },
    saidGivenUp: sum.saidGivenUp / books,
    aboveHigh: sum.aboveHigh / books,
    covered: sum.covered / books,
    width: sum.width / books,
  };
}

/** Means over truths that are not set apart; counts are added up. */
export function summariseDose(all: ReadonlyArray<MeasuredDose>) {
  const own = all.filter(({ truth }) => truth.apart !== true);
  const mean = (value: (one: MeasuredDose) => number): number =>
    own.reduce((sum, one) => sum + value(one), 0) / own.length;
  const total = (value: (one: MeasuredDose) => number): number => own.reduce((sum, one) => sum + value(one), 0);
  return {
    decision: mean(({ givenUp }) => givenUp.decision),
    tested: mean(({ givenUp }) => givenUp.tested),
    quadratic: mean(({ givenUp }) => givenUp.quadratic),
    bestMean: mean(({ givenUp }) => givenUp.bestMean),
    said: mean(({ saidGivenUp }) => saidGivenUp),
    aboveHigh: mean(({ aboveHigh }) => aboveHigh),
    covered: mean(({ covered }) => covered),
    width: mean(({ width }) => width),
    settledRight: total(({ settledRight }) => settledRight) / total(({ settled }) => settled),
    settled: total(({ settled }) => settled) / total(({ books }) => books),
    asGoodWrong: total(({ asGoodWrong }) => asGoodWrong) / total(({ books }) => books),
    chances: all[0]!.chances.map((_, tenth) => {
      const count = total(({ chances }) => chances[tenth]!.count);
      return {
        said: total(({ chances }) => chances[tenth]!.said) / count,
        true: total(({ chances }) => chances[tenth]!.true) / count,
        count,
      };
    }),
    beyond: {
      said: total(({ beyond }) => beyond.said) / total(({ beyond }) => beyond.count),
      true: total(({ beyond }) => beyond.true) / total(({ beyond }) => beyond.count),
    },
  };
}
