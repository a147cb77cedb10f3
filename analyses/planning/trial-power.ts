import { noncentralTUpperTail } from "../../src/statistics/distributions/noncentral-t.ts";
import { normalUpperTail } from "../../src/statistics/distributions/normal.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import type { BookSpread } from "./book-spread.ts";

/** Chance of showing what is there that a trial is planned for. */
export const wantedChance = 0.8;

/** How trays vary, as far as a comparison inside cooks is concerned. */
export type TrialSpread = Pick<BookSpread, "traySd" | "cookDoseSd">;

/** A trial to come. */
export interface PowerInput {
  spread: TrialSpread;
  /** doses compared; all pairs are allowed for */
  doses: number;
  significance: number;
  cooks: number;
  /** trays of each dose in each cook */
  traysPerDose: number;
}

/**
 * Variance of a difference and the degrees of freedom behind its test. What a cook does to all doses drops out, what it
 * does to one dose does not, so trays of one dose in one cook are worth less than as many in several.
 * @source combining the two mean squares: Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 */
function plannedPrecision(input: PowerInput): { standardError: number; degreesOfFreedom: number } {
  const { spread, doses, cooks, traysPerDose } = input;
  const variance = 2 * spread.cookDoseSd ** 2 + (2 * spread.traySd ** 2) / traysPerDose;
  const trays = cooks * traysPerDose * doses;
  const within = trays - Math.max(1, cooks) - doses + 1;
  const between = (cooks - 1) * (doses - 1);
  // share of the variance that comes from what a cook does to one dose; it is known only as well as there are cooks
  const cells = traysPerDose * spread.cookDoseSd ** 2;
  const share = cells / (cells + spread.traySd ** 2);
  const degreesOfFreedom =
    share === 0 ? within : between < 1 || within < 1 ? 0 : 1 / (share ** 2 / between + (1 - share) ** 2 / within);
  return { standardError: Math.sqrt(variance / cooks), degreesOfFreedom };
}

/**
 * Chance that a trial in randomised blocks shows a difference between two of its doses that is there, allowing for all
 * pairs of doses (Bonferroni).
 * @returns 0 while there are too few trays for a test
 * @source noncentral t: Cohen 1988, Statistical Power Analysis for the Behavioral Sciences, 2nd edition, chapter 2;
 *   Cochran and Cox 1957, Experimental Designs, section 4.2 for blocks (from memory)
 */
export function chanceToShow(difference: number, input: PowerInput): number {
  const { standardError, degreesOfFreedom } = plannedPrecision(input);
  if (!(degreesOfFreedom >= 1) || !Number.isFinite(standardError)) return 0;
  const pairs = (input.doses * (input.doses - 1)) / 2;
  const critical = studentTQuantile(1 - input.significance / (2 * pairs), degreesOfFreedom);
  const noncentrality = Math.abs(difference) / standardError;
  // so far out that the chance of missing it is below 1e-13, where the exact sum only costs time
  if (degreesOfFreedom >= 10 && noncentrality > 3 * critical + 8) return 1;
  // the spread is as good as known: the normal law is then within 0.001
  if (degreesOfFreedom > 2000) return normalUpperTail(critical - noncentrality);
  return noncentralTUpperTail(critical, degreesOfFreedom, noncentrality);
}

/** The most cooks looked for. */
const mostCooks = 400;

/**
 * How many cooks bring the chance of showing a difference to `wantedChance`.
 * @returns undefined when `mostCooks` do not
 */
export function cooksToShow(difference: number, input: Omit<PowerInput, "cooks">): number | undefined {
  const reached = (cooks: number) => chanceToShow(difference, { ...input, cooks }) >= wantedChance;
  let high = 1;
  while (!reached(high)) {
    if (high >= mostCooks) return undefined;
    high = Math.min(mostCooks, 2 * high);
  }
  let low = Math.floor(high / 2);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * The smallest difference that a trial shows with `wantedChance`.
 * @returns undefined when the trial is too small for a test
 */
export function smallestShown(input: PowerInput): number | undefined {
  const { standardError, degreesOfFreedom } = plannedPrecision(input);
  if (!(degreesOfFreedom >= 1) || !Number.isFinite(standardError)) return undefined;
  let [low, high] = [0, standardError];
  while (chanceToShow(high, input) < wantedChance) high *= 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (chanceToShow(middle, input) >= wantedChance) high = middle;
    else low = middle;
  }
  return high;
}
