import type { ChosenDose } from "./choose-dose.ts";
import type { DoseEdge, DoseStep } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";
import type { MoneyDraws } from "./money-draws.ts";

/** An end is named where the next dose beats the one to use with this chance. */
const edgeAt = 0.25;

function stepTo(at: number, { use }: ChosenDose, grid: DoseGrid, { left, count }: MoneyDraws): DoseStep {
  let [better, sum, gains] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const more = left[at * count + i]! - left[use * count + i]!;
    sum += more;
    if (more > 0) {
      better++;
      gains += more;
    }
  }
  return {
    dose: grid.doses[at]!,
    beyond: at < grid.first || at > grid.last,
    chanceBetter: better / count,
    difference: sum / count,
    value: gains / count,
  };
}

/** Of steps worth as much within this share, one at a round dose is taken: 30 g rather than 31 g. */
const asMuch = 0.95;
const isRound = ({ dose }: DoseStep, step: number): boolean =>
  Math.abs(dose / (5 * step) - Math.round(dose / (5 * step))) < 1e-9;

/** Per side of the dose to use, the untried dose up to the next tried one whose knowledge is worth most. */
export function nextSteps(chosen: ChosenDose, grid: DoseGrid, money: MoneyDraws): DoseStep[] {
  const tested = new Set(grid.tested);
  return [-1, 1].flatMap((direction) => {
    const steps: DoseStep[] = [];
    for (let at = chosen.use + direction; at >= 0 && at < grid.doses.length && !tested.has(at); at += direction)
      steps.push(stepTo(at, chosen, grid, money));
    const [best] = steps.sort((a, b) => b.value - a.value);
    if (best === undefined) return [];
    return [steps.find((one) => one.value >= asMuch * best.value && isRound(one, grid.step)) ?? best];
  });
}

/** Ends of the range tried beside which more could be earned. */
export function doseEdges(chosen: ChosenDose, grid: DoseGrid, money: MoneyDraws): DoseEdge[] {
  const ends = [
    { side: "lowest", at: grid.first, beyond: grid.first - 1 },
    { side: "highest", at: grid.last, beyond: grid.last + 1 },
  ] as const;
  return ends.flatMap(({ side, at, beyond }) => {
    const next = grid.doses[beyond] === undefined ? undefined : stepTo(beyond, chosen, grid, money);
    const isUse = chosen.use === at;
    if (!isUse && !(next !== undefined && next.chanceBetter >= edgeAt)) return [];
    return [{ side, dose: grid.doses[at]!, isUse, next }];
  });
}

/**
 * Whether trying a dose is worth its trial trays: a year's gain from knowing against what the trial gives up.
 * @param traysAYear started trays a year; trialTrays those of the trial at the new dose
 * @example isWorthTrying({ value: 0.1, difference: -0.5, ... }, 500, 12) // true: 50 against 6
 */
export const isWorthTrying = ({ value, difference }: DoseStep, traysAYear: number, trialTrays: number): boolean =>
  value * traysAYear > -difference * trialTrays;
