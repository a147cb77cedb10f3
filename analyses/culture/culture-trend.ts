import type { Sentence } from "../../src/analysis.ts";
import { countedEnds } from "../../src/records/ended-cooks.ts";
import { isLost } from "../../src/records/tray.ts";
import { contrastTest } from "../../src/statistics/mixed-models/contrast-test.ts";
import { fitMixedModel, type MixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { permuteSlope } from "../../src/statistics/resampling/permute-slope.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { type OddsOfLoss, oddsOfLoss } from "../losses/odds-of-loss.ts";
import type { CultureLayout, CultureTray } from "./culture-layout.ts";

type Judged = Extract<CultureLayout, { kind: "judged" }>;

/** How a measure changes with one more unit of the culture's age or generation. */
export interface CultureTrend {
  kind: "trend";
  slope: number;
  low: number;
  high: number;
  p: number;
  trays: number;
  method: string;
  notes: Sentence[];
}

const amountName = "amount";

/**
 * Change of a measure per unit of age or generation: mixed model with cook and jar as random effects. Where cooks hold several
 * levels, each tray's amount is taken as its distance from the mean of its cook, with that mean beside it, so that only trays
 * of one cook are compared.
 * @returns the reason where it cannot be fitted
 * @source the mean of the group as a term of its own: Mundlak 1978, Econometrica 46(1):69-85
 */
export function cultureTrend(
  layout: Judged,
  response: TrayResponse,
  level: number,
): CultureTrend | { kind: "none"; reason: string } {
  const rows = layout.trays.flatMap((row) => {
    const value = response.of(row.tray);
    return value === undefined || row.tray.traysInPool > 1 ? [] : [{ ...row, value }];
  });
  const cookMean = meanBy(rows);
  const varies = rows.some(({ amount, cook }) => Math.abs(amount - cookMean.get(cook)!) > 1e-9 * Math.abs(amount));
  if (layout.withinCooks ? !varies : new Set(rows.map(({ amount }) => amount)).size < 2) {
    return { kind: "none", reason: `too few trays with ${response.label} differ in it` };
  }
  const terms = termsOf(rows, layout.withinCooks, cookMean);
  for (const random of randomParts(rows, layout.cooks)) {
    let fit: MixedModel;
    try {
      fit = fitMixedModel({ response: rows.map(({ value }) => value), terms, random });
      const weights = fit.coefficientNames.map((name) => (name === amountName ? 1 : 0));
      if (!weights.includes(1)) return { kind: "none", reason: "it cannot be separated from the dose" };
      const { estimate, lower, upper, p } = contrastTest(fit, weights, level);
      return {
        kind: "trend",
        slope: estimate,
        low: lower,
        high: upper,
        p,
        trays: rows.length,
        method: `mixed model, ${random.map(({ name }) => name).join(" and ")} random, Kenward and Roger`,
        notes: fit.notes.map((note) => [note]),
      };
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
    }
  }
  return { kind: "none", reason: "its trays are too few or too much alike to fit a line" };
}

/** The amount, within cooks where they hold several levels; and what else has to be allowed for. */
function termsOf(rows: ReadonlyArray<CultureTray>, withinCooks: boolean, cookMean: ReadonlyMap<string, number>) {
  const doses = rows.map(({ tray }) => tray.inoculumMillilitres);
  const dosed = doses.every((dose) => dose !== undefined) && new Set(doses).size > 1;
  const means = rows.map(({ cook }) => cookMean.get(cook)!);
  const meansVary = new Set(means).size > 1;
  return [
    {
      kind: "number" as const,
      name: amountName,
      values: rows.map(({ amount }, index) => (withinCooks ? amount - means[index]! : amount)),
    },
    ...(withinCooks && meansVary ? [{ kind: "number" as const, name: "mean of the cook", values: means }] : []),
    ...(dosed ? [{ kind: "factor" as const, name: "dose", values: doses.map(String) }] : []),
  ];
}

/** What varies at random, fullest first: jars are nested in cooks unless one was used in several. */
function randomParts(rows: ReadonlyArray<CultureTray>, cooks: number) {
  const cook = { name: "cook", groups: rows.map((row) => row.cook) };
  const jar = { name: "jar", groups: rows.map((row) => row.jar) };
  const jarInCook = { ...jar, within: "cook" };
  const cooksOfJar = new Map<string, Set<string>>();
  for (const row of rows) cooksOfJar.set(row.jar, (cooksOfJar.get(row.jar) ?? new Set()).add(row.cook));
  const spans = [...cooksOfJar.values()].some((own) => own.size > 1);
  if (!spans) return [[cook, jarInCook], [jar], [cook]];
  return cooksOfJar.size + cooks <= 300 ? [[cook, jar], [jar], [cook]] : [[cook, jarInCook], [cook]];
}

function meanBy(rows: ReadonlyArray<CultureTray>): Map<string, number> {
  const sums = new Map<string, { sum: number; count: number }>();
  for (const { cook, amount } of rows) {
    const entry = sums.get(cook) ?? { sum: 0, count: 0 };
    sums.set(cook, entry);
    entry.sum += amount;
    entry.count++;
  }
  return new Map([...sums].map(([cook, { sum, count }]) => [cook, sum / count]));
}

/** Work of the permutation: draws times trays. */
const work = 4e6;

/** Change of the odds of losing a tray per unit of age or generation, jars permuted within cooks. */
export function cultureLossTrend(
  layout: Judged,
  level: number,
  seed: number,
): OddsOfLoss | { kind: "none"; reason: string } {
  const counted = new Set(countedEnds(layout.trays.map(({ tray }) => tray)));
  const rows = layout.trays.filter(({ tray }) => counted.has(tray) && tray.traysInPool === 1);
  const lost = rows.map(({ tray }) => isLost(tray));
  const losses = lost.filter(Boolean).length;
  if (Math.min(losses, lost.length - losses) < 3)
    return { kind: "none", reason: "fewer than 3 trays were lost, or kept" };
  const amount = rows.map((row) => row.amount);
  const jarsPermuted = () =>
    permuteSlope(
      {
        response: lost.map(Number),
        amount,
        ...(layout.withinCooks ? { strata: rows.map(({ cook }) => cook) } : {}),
        clusters: rows.map((row) =>
          JSON.stringify(layout.withinCooks ? [row.cook, row.jar, row.amount] : [row.cook, row.amount]),
        ),
      },
      { seed, draws: Math.max(299, Math.min(3999, Math.floor(work / lost.length))) },
    ).p;
  return oddsOfLoss({
    lost,
    amount,
    clusters: rows.map(({ jar }) => jar),
    test: { name: "permutation", p: jarsPermuted },
    level,
  });
}
