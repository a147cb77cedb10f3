import type { Trial } from "../../src/analysis.ts";
import { doseFactor, type Factor, gradeFactor, supplementAmountFactor } from "../../src/design/factor.ts";
import { hasBlocks } from "../../src/design/layout.ts";
import { dryingRatio } from "../../src/measures/drying-ratio.ts";
import type { Tray } from "../../src/records/tray.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import type { Lot } from "../comparison/cooks-in-order.ts";
import { colonisationDays, harvestDays } from "../comparison/tray-days.ts";
import { type TrayResponse, yieldPerGoodTray } from "../comparison/tray-response.ts";

/** Grams fresh for one gram dried, of a good tray weighed both ways. */
const dryingRatioOfTray: TrayResponse = {
  label: "drying ratio",
  unit: "factor",
  of: ({ outcome, freshGrams, dryGrams }) =>
    outcome === "good" && freshGrams !== undefined && dryGrams !== undefined && dryGrams > 0
      ? dryingRatio(freshGrams, dryGrams)
      : undefined,
};

/** A measure of the process, cook by cook in time order. */
export interface ProcessMeasure {
  response: TrayResponse;
  /** one per cook that has the measure */
  lots: { lot: Lot; value: number; trays: number }[];
}

/** What is watched: yield by the weight the book uses, drying ratio, days to colonise and to harvest. */
export function watchedResponses(trial: Trial): TrayResponse[] {
  const weight = yieldWeightOf(trial);
  return [
    ...(weight === undefined ? [] : [yieldPerGoodTray(weight)]),
    dryingRatioOfTray,
    colonisationDays,
    harvestDays,
  ];
}

/** Treatments dealt inside cooks, whose differences can be taken out without taking out those between cooks. */
export function treatmentsWithinCooks(trays: ReadonlyArray<Tray>): Factor[] {
  return [doseFactor, gradeFactor, supplementAmountFactor].filter((factor) => hasBlocks(trays, factor));
}

interface Cell {
  sum: number;
  trays: number;
  /** by the level of the next treatment */
  next: Map<string | undefined, Cell>;
}

/** What a tray's sums belong to: one cell for each level of every treatment, empty at first. */
function treatmentCells(treatments: ReadonlyArray<Factor>): (tray: Tray) => Cell {
  const empty = (): Cell => ({ sum: 0, trays: 0, next: new Map() });
  const all = empty();
  return (tray) => {
    let cell = all;
    for (const factor of treatments) {
      const level = factor.level(tray);
      const next = cell.next.get(level) ?? empty();
      cell.next.set(level, next);
      cell = next;
    }
    return cell;
  };
}

/**
 * Means of a measure by cook. Trays are first compared with the mean of their own treatment, so that a cook with more trays of
 * a high dose does not look like a better one. A pool counts as its trays.
 * @param treatments taken out first; see `treatmentsWithinCooks`
 */
export function processMeasure(
  lots: ReadonlyArray<Lot>,
  response: TrayResponse,
  treatments: ReadonlyArray<Factor>,
): ProcessMeasure {
  const cellOf = treatmentCells(treatments);
  let [sum, trays] = [0, 0];
  const known = lots.map((lot) => ({
    lot,
    rows: lot.trays.flatMap((tray) => {
      const value = response.of(tray);
      if (value === undefined) return [];
      const cell = cellOf(tray);
      const count = tray.traysInPool;
      cell.sum += value * count;
      cell.trays += count;
      sum += value * count;
      trays += count;
      return [{ value, count, cell }];
    }),
  }));
  const mean = trays === 0 ? 0 : sum / trays;
  return {
    response,
    lots: known
      .filter(({ rows }) => rows.length > 0)
      .map(({ lot, rows }) => {
        const own = rows.reduce((total, { count }) => total + count, 0);
        const away = rows.reduce((total, { value, count, cell }) => total + (value - cell.sum / cell.trays) * count, 0);
        return { lot, value: mean + away / own, trays: own };
      }),
  };
}
