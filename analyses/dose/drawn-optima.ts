import { type DoseEconomics, doseProfit } from "../../src/costing/dose-profit.ts";
import type { Settings } from "../../src/records/setting.ts";
import { percentileInterval, visitBootstrapRefits } from "../../src/statistics/curves/bootstrap-curve.ts";
import { curveData } from "../../src/statistics/curves/curve-data.ts";
import { estimateCurve } from "../../src/statistics/curves/estimate-curve.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { DoseCurve } from "./dose-curve.ts";
import type { DaysByDose, LossByDose } from "./dose-economics.ts";

/** Where the dose that earns most lies when the trays, the losses and the days are drawn anew. */
export interface DrawnOptima {
  low: number;
  high: number;
  /** share of the redrawings whose best dose is an end of the range tried */
  shareAtEdges: number;
  replicates: number;
}

const replicates = 1000;
/** doses looked at in each redrawing; the best is read off to a fortieth of the range */
const gridSteps = 40;

/** Two correlated normal draws from a fitted intercept and slope. */
function draws(covariance: ReadonlyArray<ReadonlyArray<number>>, first: number, second: number): [number, number] {
  const [a, b, c] = [covariance[0]![0]!, covariance[0]![1]!, covariance[1]![1]!];
  const root = Math.sqrt(a);
  const cross = root > 0 ? b / root : 0;
  return [root * first, cross * first + Math.sqrt(Math.max(0, c - cross * cross)) * second];
}

/**
 * Redraws the trays within dose and cook and refits the yield curve, redraws the loss and days lines from their own
 * errors, and finds the best dose each time. Redrawings are shared over the forms of curve by their support (Akaike
 * weights): trays that cannot tell a curve that has levelled off from one still climbing must leave both in the range.
 * @returns undefined where no curve can be refitted
 * @source Burnham and Anderson 2002, Model Selection and Multimodel Inference, chapter 4 (from memory)
 */
export function drawnOptima(input: {
  curve: DoseCurve;
  economics: DoseEconomics;
  loss: LossByDose;
  days: DaysByDose;
  settings: Readonly<Settings>;
}): DrawnOptima | undefined {
  const { curve, economics, loss, days, settings } = input;
  const data = curveData("drawnOptima", curve.columns);
  const random = seededRandom(settings.seed);
  const slopeError = days.line === undefined ? 0 : days.line.parameters[1]!.standardError;
  const found: number[] = [];
  let edges = 0;
  curve.compared.ranked.forEach(({ fit, weight }, rank) => {
    const share = Math.round(replicates * weight);
    const estimate = share > 0 ? estimateCurve(fit.form, data) : undefined;
    if (estimate === undefined || estimate.kind === "none") return;
    const { lowestDose, highestDose, form } = fit;
    const grid = Array.from(
      { length: gridSteps + 1 },
      (_, step) => lowestDose + ((highestDose - lowestDose) * step) / gridSteps,
    );
    const plan = { form, data, estimate, replicates: share, seed: settings.seed + rank };
    visitBootstrapRefits(plan, (parameters) => {
      const lossShift: [number, number] =
        loss.fit === undefined ? [0, 0] : draws(loss.fit.covariance, random.normal(), random.normal());
      const daysShift = slopeError * random.normal();
      const drawn: DoseEconomics = {
        ...economics,
        gramsPerGoodTray: (dose) => form.value(dose, parameters),
        loss: (dose) => loss.at(dose, lossShift),
        daysPerGoodTray: (dose) => days.at(dose, daysShift),
      };
      let top = 0;
      let most = Number.NEGATIVE_INFINITY;
      grid.forEach((dose, step) => {
        const profit = doseProfit(dose, drawn).profitPerStartedTray;
        if (profit > most) [most, top] = [profit, step];
      });
      if (top === 0 || top === gridSteps) edges++;
      found.push(grid[top]!);
    });
  });
  if (found.length === 0) return undefined;
  return {
    ...percentileInterval(Float64Array.from(found), settings.intervalLevel),
    shareAtEdges: edges / found.length,
    replicates: found.length,
  };
}
