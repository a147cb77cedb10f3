import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import type { DoseEconomics } from "../../src/costing/dose-profit.ts";
import { trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { daysCharged } from "../../src/costing/trays/tray-life.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type LogisticRegression, logisticRegression } from "../../src/statistics/counts/logistic-regression.ts";
import { type FittedCurve, fitCurve } from "../../src/statistics/curves/fit-curve.ts";
import { isFinished, isLost, type YieldWeight } from "../comparison/tray-response.ts";

/** How the share of trays lost changes with dose. */
export interface LossByDose {
  /** share lost at a dose; with log odds moved when a draw of the slope and intercept is tried */
  at(dose: number, shift?: readonly [intercept: number, slope: number]): number;
  fit: LogisticRegression | undefined;
  lost: number;
  finished: number;
}

/** Share of finished trays lost over dose by logistic regression; a constant where none or all were lost, or nothing varies. */
export function lossByDose(trays: ReadonlyArray<Tray>): LossByDose {
  const counted = trays.filter((tray) => isFinished(tray) && tray.inoculumMillilitres !== undefined);
  const byDose = new Map<number, { lost: number; trays: number }>();
  for (const tray of counted) {
    const entry = byDose.get(tray.inoculumMillilitres!) ?? { lost: 0, trays: 0 };
    byDose.set(tray.inoculumMillilitres!, entry);
    entry.trays += tray.traysInPool;
    if (isLost(tray)) entry.lost += tray.traysInPool;
  }
  const doses = [...byDose.keys()];
  const cells = [...byDose.values()];
  const lost = cells.reduce((sum, cell) => sum + cell.lost, 0);
  const finished = cells.reduce((sum, cell) => sum + cell.trays, 0);
  if (lost === 0 || lost === finished || doses.length < 2) {
    const share = finished === 0 ? 0 : lost / finished;
    return { at: () => share, fit: undefined, lost, finished };
  }
  const fit = logisticRegression({
    successes: cells.map((cell) => cell.lost),
    trials: cells.map((cell) => cell.trays),
    columns: [{ name: "dose", values: doses }],
    profiles: false,
  });
  const [intercept, slope] = fit.coefficients.map(({ estimate }) => estimate) as [number, number];
  return {
    at: (dose, shift = [0, 0]) => 1 / (1 + Math.exp(-(intercept + shift[0] + (slope + shift[1]) * dose))),
    fit,
    lost,
    finished,
  };
}

/** Days a good tray holds its place over dose: a straight line where it can be fitted, else their mean. */
export interface DaysByDose {
  at(dose: number, slopeShift?: number): number;
  line: FittedCurve | undefined;
  meanLost: number | undefined;
}

/** Days from inoculation to the end, of good and of lost trays. */
export function daysByDose(costs: TrayCosts): DaysByDose | undefined {
  const good: { dose: number; days: number; block: string | undefined }[] = [];
  const lost: number[] = [];
  costs.trays.forEach((tray, index) => {
    const days = daysCharged(costs.lives[index]!, "filling");
    if (days === undefined || days <= 0) return;
    if (tray.outcome === "good" && tray.inoculumMillilitres !== undefined) {
      good.push({ dose: tray.inoculumMillilitres, days, block: tray.batch });
    } else if (isLost(tray)) lost.push(days);
  });
  if (good.length === 0) return undefined;
  const meanDays = good.reduce((sum, { days }) => sum + days, 0) / good.length;
  const meanDose = good.reduce((sum, { dose }) => sum + dose, 0) / good.length;
  const meanLost = lost.length === 0 ? undefined : lost.reduce((sum, days) => sum + days, 0) / lost.length;
  const constant: DaysByDose = { at: () => meanDays, line: undefined, meanLost };
  if (new Set(good.map(({ dose }) => dose)).size < 2 || good.length < 4) return constant;
  const blocked = good.every(({ block }) => block !== undefined) && new Set(good.map(({ block }) => block)).size <= 60;
  const line = fitCurve({
    form: "straight-line",
    doses: good.map(({ dose }) => dose),
    responses: good.map(({ days }) => days),
    ...(blocked ? { blocks: good.map(({ block }) => block!) } : {}),
    profile: false,
  });
  if (line.kind === "not-fitted") return constant;
  return {
    at: (dose, slopeShift = 0) => Math.max(1, line.form.value(dose, line.estimates) + slopeShift * (dose - meanDose)),
    line,
    meanLost,
  };
}

/** What the cost lines put on a mL, a day of shelf, a started tray and a good one, and what a gram leaves. */
export type DoseCosts = Pick<
  DoseEconomics,
  | "netPricePerGram"
  | "cultureCostPerMillilitre"
  | "costPerShelfDay"
  | "otherCostPerStartedTray"
  | "otherCostPerGoodTray"
  | "recoveredPerLostTray"
>;

/**
 * The book's costs by what they follow, and what a gram leaves once the costs that follow the gram, drying among them,
 * are taken off. They are taken off there and nowhere else.
 * @param netPerGram what a gram brings after fees, packing and sending
 */
export function doseCosts(
  costs: TrayCosts,
  weight: YieldWeight,
  netPerGram: number,
): { kind: "dose-costs"; economics: DoseCosts } | CannotTell {
  const parts = trayCostParts(costs, "full", weight === "dry" ? "dried" : "fresh");
  if (parts.kind === "cannot-tell") return parts;
  return {
    kind: "dose-costs",
    economics: {
      netPricePerGram: netPerGram - parts.perGram,
      cultureCostPerMillilitre: parts.perMillilitre,
      costPerShelfDay: parts.perShelfDay,
      otherCostPerStartedTray: parts.perStartedTray,
      otherCostPerGoodTray: parts.perGoodTray,
      recoveredPerLostTray: costs.settings.recoveredPerLostTray,
    },
  };
}
