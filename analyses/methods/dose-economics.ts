import type { DoseEconomics } from "../../src/costing/dose-profit.ts";
import type { TrayCosts } from "../../src/costing/tray-costs.ts";
import { daysCharged } from "../../src/costing/tray-life.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type LogisticRegression, logisticRegression } from "../../src/statistics/counts/logistic-regression.ts";
import { type FittedCurve, fitCurve } from "../../src/statistics/curves/fit-curve.ts";
import { isFinished, isLost } from "./tray-response.ts";

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

/** What the cost lines put on a mL, a day of shelf, a started tray and a good one. */
export type DoseCosts = Pick<
  DoseEconomics,
  | "cultureCostPerMillilitre"
  | "costPerShelfDay"
  | "otherCostPerStartedTray"
  | "otherCostPerGoodTray"
  | "recoveredPerLostTray"
>;

/**
 * Splits the book's costs by what they follow: the mL injected, the days of shelf, the good tray, or just the start.
 * The owner's own time counts where the lines say so.
 */
export function doseCosts(costs: TrayCosts): DoseCosts {
  const finished = costs.trays.flatMap((tray, index) => (isFinished(tray) ? [index] : []));
  const sum = (of: (index: number) => number) => finished.reduce((total, index) => total + of(index), 0);
  const started = sum((index) => costs.trays[index]!.traysInPool);
  const good = sum((index) => (costs.trays[index]!.outcome === "good" ? costs.trays[index]!.traysInPool : 0));
  const millilitres = sum((index) => (costs.trays[index]!.inoculumMillilitres ?? 0) * costs.trays[index]!.traysInPool);
  const days = sum((index) => (daysCharged(costs.lives[index]!, "filling") ?? 0) * costs.trays[index]!.traysInPool);
  let [culture, shelf, perGood, other] = [0, 0, 0, 0];
  costs.items.forEach(({ per }, row) => {
    const spent = sum((index) => costs.amounts[row]![index]!);
    if (per === "jar" || per === "inoculum mL") culture += spent;
    else if (per === "shelf day") shelf += spent;
    else if (per === "good tray" || per === "kg fresh" || per === "kg dried") perGood += spent;
    else other += spent;
  });
  return {
    cultureCostPerMillilitre: millilitres > 0 ? culture / millilitres : 0,
    costPerShelfDay: days > 0 ? shelf / days : 0,
    otherCostPerGoodTray: good > 0 ? perGood / good : 0,
    otherCostPerStartedTray: started > 0 ? other / started : 0,
    recoveredPerLostTray: costs.settings.recoveredPerLostTray,
  };
}
