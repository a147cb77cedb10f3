import type { DoseTray, SeenDose } from "../../src/decisions/dose/index.ts";
import { linearModel } from "../../src/statistics/linear-models/linear-model.ts";
import type { DoseTruth } from "./dose-truths.ts";

/** What a glance at the means says: the tested dose whose trays left most. */
export const bestMeanDose = (seen: ReadonlyArray<SeenDose>): number =>
  seen.reduce((best, one) => (one.left!.mean > best.left!.mean ? one : best)).dose;

/**
 * The usual textbook way: yield of good trays as a quadratic of dose beside the cooks, losses as a straight line, money
 * worked out on whole millilitres of the range tried, the top taken.
 * @returns undefined where there are too few good trays to fit it
 */
export function quadraticDose(trays: ReadonlyArray<DoseTray>, { doses, prices }: DoseTruth): number | undefined {
  const good = trays.filter(({ lost }) => !lost);
  const own = good.map(({ dose }) => dose);
  const cooks = [...new Set(good.map(({ cook }) => cook!))];
  const severalPerCook = new Set(trays.map(({ cook, dose }) => `${cook} ${dose}`)).size > cooks.length;
  if (good.length <= (severalPerCook ? cooks.length + 2 : 3)) return undefined;
  const yields = linearModel({
    response: good.map(({ grams }) => grams!),
    terms: [
      { kind: "number", name: "dose", values: own },
      { kind: "number", name: "square", values: own.map((dose) => dose * dose) },
      ...(severalPerCook ? [{ kind: "factor" as const, name: "cook", values: good.map(({ cook }) => cook!) }] : []),
    ],
  }).coefficients;
  const of = (name: string): number => yields.find((one) => one.name === name)?.estimate ?? 0;
  const offsets = yields.filter(({ term }) => term === "cook").reduce((sum, { estimate }) => sum + estimate, 0);
  const grams = (dose: number): number =>
    of("intercept") + offsets / cooks.length + of("dose") * dose + of("square") * dose * dose;
  const anyLost = good.length < trays.length;
  const lossLine = anyLost
    ? linearModel({
        response: trays.map(({ lost }) => (lost ? 1 : 0)),
        terms: [{ kind: "number", name: "dose", values: trays.map(({ dose }) => dose) }],
      }).coefficients.map(({ estimate }) => estimate)
    : [0, 0];
  const left = (dose: number): number => {
    const lost = Math.min(1, Math.max(0, lossLine[0]! + lossLine[1]! * dose));
    const income =
      (1 - lost) * (prices.perGram * grams(dose) - prices.perGoodTray) + lost * prices.recoveredPerLostTray;
    return income - prices.perDoseUnit * dose;
  };
  let best = doses[0]!;
  for (let dose = doses[0]!; dose <= doses.at(-1)!; dose++) if (left(dose) > left(best)) best = dose;
  return best;
}
