import type { Sentence } from "../../src/analysis.ts";
import { gainDiffers, usualTrayCv, usualTrayDf } from "../../src/decisions/verdict/index.ts";
import { fitMixedModel, type MixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import type { Observation } from "../comparison/tray-response.ts";

/** How much trays, cooks, and levels within cooks vary in a book. Standard deviations in the response's unit. */
export interface BookSpread {
  mean: number;
  /** between trays of one dose in one cook */
  traySd: number;
  /** between cooks, the same for every dose; drops out where every cook holds every dose */
  cookSd: number;
  /** what a cook does to one dose and not to the others: it does not drop out, so only more cooks help against it */
  cookDoseSd: number;
  /** behind the tray standard deviation */
  degreesOfFreedom: number;
  trays: number;
  cooks: number;
  says: Sentence;
}

const cookOf = ({ tray }: Observation): string | undefined => tray.batch;

function fitted(observations: ReadonlyArray<Observation>, withCells: boolean): MixedModel {
  const arms = observations.map(({ arm }) => arm);
  const cooks = observations.map((one) => cookOf(one)!);
  return fitMixedModel({
    response: observations.map(({ value }) => value),
    terms: new Set(arms).size > 1 ? [{ kind: "factor", name: "arm", values: arms }] : [],
    random: [
      { name: "cook", groups: cooks },
      ...(withCells
        ? [{ name: "dose in a cook", groups: observations.map((one, k) => `${cooks[k]}\n${one.arm}`), within: "cook" }]
        : []),
    ],
  });
}

/** Spread pooled within the cells that one key names. */
function pooled(observations: ReadonlyArray<Observation>, keyOf: (one: Observation) => string) {
  const cells = new Map<string, { count: number; mean: number; squares: number }>();
  for (const one of observations) {
    const key = keyOf(one);
    const cell = cells.get(key) ?? { count: 0, mean: 0, squares: 0 };
    cells.set(key, cell);
    const step = one.value - cell.mean;
    cell.count++;
    cell.mean += step / cell.count;
    cell.squares += step * (one.value - cell.mean);
  }
  const degreesOfFreedom = observations.length - cells.size;
  const squares = [...cells.values()].reduce((sum, cell) => sum + cell.squares, 0);
  return { degreesOfFreedom, variance: degreesOfFreedom > 0 ? squares / degreesOfFreedom : 0 };
}

/** What is supposed of trays that tell nothing, as the comparison supposes it: a share of their mean. */
export const supposedSpread = {
  mean: 1,
  traySd: usualTrayCv,
  cookDoseSd: usualTrayCv * Math.sqrt(gainDiffers),
};

/**
 * Variance components of a book: between trays, between cooks, and of a dose from cook to cook, by restricted maximum
 * likelihood; without cooks, or where that cannot be fitted, the spread of trays pooled within dose and cook, drawn to what is
 * supposed of trays.
 * @returns undefined when fewer than 4 degrees of freedom are left for the spread, or nothing varies
 */
export function bookSpread(observations: ReadonlyArray<Observation>): BookSpread | undefined {
  const trays = observations.length;
  if (trays < 5) return undefined;
  const mean = observations.reduce((sum, { value }) => sum + value / trays, 0);
  const hasCooks = observations.every((one) => cookOf(one) !== undefined);
  const cooks = new Set(observations.map(cookOf)).size;
  const cellOf = (one: Observation) => `${cookOf(one) ?? ""}\n${one.arm}`;
  const cells = new Set(observations.map(cellOf)).size;
  const base = { mean, trays, cooks: hasCooks ? cooks : 0 };
  if (hasCooks && cooks > 1) {
    const withCells = cells > cooks && trays > cells;
    for (const deep of withCells ? [true, false] : [false]) {
      try {
        const fit = fitted(observations, deep);
        const degreesOfFreedom = trays - (deep ? cells : cooks);
        if (degreesOfFreedom < 4) continue;
        const [cook, cell] = fit.components;
        return {
          ...base,
          traySd: fit.residual.standardDeviation,
          cookSd: cook!.standardDeviation,
          cookDoseSd: cell?.standardDeviation ?? 0,
          degreesOfFreedom,
          says: [
            `How much trays${deep ? ", cooks and levels within cooks" : " and cooks"} vary is estimated from ${trays} trays of ${cooks} cooks (mixed model, restricted maximum likelihood).`,
          ],
        };
      } catch (error) {
        // a model these trays cannot carry gives way to the simpler one below
        if (!(error instanceof RangeError)) throw error;
      }
    }
  }
  const { degreesOfFreedom, variance } = pooled(observations, cellOf);
  if (degreesOfFreedom < 4 || !(variance > 0)) return undefined;
  const supposed = (usualTrayCv * mean) ** 2;
  const drawn = (usualTrayDf * supposed + degreesOfFreedom * variance) / (usualTrayDf + degreesOfFreedom);
  return {
    ...base,
    traySd: Math.sqrt(drawn),
    cookSd: 0,
    cookDoseSd: Math.sqrt(gainDiffers * drawn),
    degreesOfFreedom,
    says: [
      `How much trays vary is pooled from ${trays} trays within their dose${hasCooks ? " and cook" : ""} and what is usual; how much cooks differ is supposed (common practice, no source).`,
    ],
  };
}
