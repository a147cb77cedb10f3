import type { Trial } from "../../src/analysis.ts";
import { type MoreTraysWorth, valueOfMoreTrays } from "../../src/decisions/dose/index.ts";
import { couldShowAfter } from "../../src/decisions/verdict/index.ts";
import type { BookDose } from "../treatment/book-dose-decision.ts";
import { isTrend, type TreatmentDecision } from "../treatment/treatment-decision.ts";
import { startsPerYear } from "../treatment/year-of-trays.ts";

/** Further cooks that are weighed; more than the last are out of reach of a few shelves. */
export const furtherCooks: ReadonlyArray<number> = [1, 2, 3, 4, 6, 8, 12, 16, 24];

/** What so many further cooks like those of the book would bring. */
export interface Further {
  cooks: number;
  trays: number;
  /** grams that could then be shown four times in five; absent where that is no less than now, as with few cooks once a difference is settled */
  couldShow: number | undefined;
  /** absent where there is no decision about the dose */
  worth: MoreTraysWorth | undefined;
}

/** Trays of a cook of this book: the middle one by size, and no fewer than hold every level that is compared with others. */
function usualCook({ gathered, decision, thing }: TreatmentDecision): number {
  const sizes = new Map<string, number>();
  for (const { cook, day = "", pooled = 1 } of gathered.trays) {
    const name = cook ?? String(day);
    sizes.set(name, (sizes.get(name) ?? 0) + pooled);
  }
  const sorted = [...sizes.values()].sort((a, b) => a - b);
  return Math.max(isTrend(thing) ? 2 : decision.levels.length, sorted[Math.floor(sorted.length / 2)] ?? 0);
}

/** The further cooks that are weighed, each with what it would bring. */
export function furtherOf(trial: Trial, of: TreatmentDecision, dose: BookDose | undefined): Further[] {
  const perCook = usualCook(of);
  const now = of.decision.difference?.couldHaveShown ?? Number.POSITIVE_INFINITY;
  const lessThanNow = (grams: number | undefined) => (grams !== undefined && grams < now ? grams : undefined);
  const traysAYear = startsPerYear(trial);
  return furtherCooks.map((cooks) => ({
    cooks,
    trays: cooks * perCook,
    couldShow: lessThanNow(couldShowAfter(of.decision, cooks, { alpha: trial.settings.significanceLevel })),
    worth:
      dose &&
      valueOfMoreTrays(dose.decision, {
        traysPerDose: Math.max(1, Math.round((cooks * perCook) / dose.decision.doses.length)),
        cooks,
        traysAYear,
      }),
  }));
}

/** The fewest of the further cooks that would show so many grams; undefined where none would. */
export const firstToShow = (further: ReadonlyArray<Further>, grams: number): Further | undefined =>
  further.find(({ couldShow }) => couldShow !== undefined && couldShow <= grams);

/** The further cooks that leave most in a year; undefined where none leaves anything. */
export function bestWorth(further: ReadonlyArray<Further>): Further | undefined {
  const paying = further.filter(({ worth }) => worth !== undefined && worth.perYear > 0);
  return paying.reduce<Further | undefined>(
    (top, one) => (top === undefined || one.worth!.perYear > top.worth!.perYear ? one : top),
    undefined,
  );
}
