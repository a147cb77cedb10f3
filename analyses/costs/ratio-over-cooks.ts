import { isLost, type Tray } from "../../src/records/tray.ts";
import { type FiellerMeans, fiellerRatio } from "../../src/statistics/optimum/fieller-ratio.ts";
import { supposedLikeness } from "../comparison/supposed-cooks.ts";

/** One tray's part of the two sums whose ratio is wanted. */
export interface RatioPair {
  tray: Tray;
  numerator: number;
  denominator: number;
}

/** A ratio of sums and how far another set of trays like these could differ. */
export interface RatioOverCooks {
  value: number;
  /** Fieller's limits; absent where the data set none, or there are too few units */
  low: number | undefined;
  high: number | undefined;
  /** what counted as one independent unit */
  units: number;
  unitName: "cooks" | "trays";
  /** means over units with their variances, for drawing the ratio as Fieller's limits have it; absent with too few units */
  means?: FiellerMeans;
  /** one plain sentence without a full stop */
  says: string;
}

interface UnitSums {
  numerator: number;
  denominator: number;
}

const leastUnits = 3;

/** trays that are supposed to be of one cook where none is written: a load. Common practice, no source. */
const supposedCook = 6;

/** Trays of the usual cook, as a tray meets it. */
function cookSize(trays: ReadonlyArray<Tray>): number {
  const sizes = new Map<string, number>();
  for (const { batch } of trays) if (batch !== undefined) sizes.set(batch, (sizes.get(batch) ?? 0) + 1);
  const squares = [...sizes.values()].reduce((sum, size) => sum + size ** 2, 0);
  return squares > 0 ? squares / trays.length : Math.min(trays.length, supposedCook);
}

/** Products of two numbers' distances from their means, added up over units. */
type Scatter = (one: keyof UnitSums, other: keyof UnitSums) => number;

const meanOf = (units: ReadonlyArray<UnitSums>, of: keyof UnitSums): number =>
  units.reduce((sum, unit) => sum + unit[of], 0) / units.length;

function scatterOf(units: ReadonlyArray<UnitSums>): Scatter {
  return (one, other) => {
    const [a, b] = [meanOf(units, one), meanOf(units, other)];
    return units.reduce((sum, unit) => sum + (unit[one] - a) * (unit[other] - b), 0);
  };
}

/**
 * Scatter of trays of one cook or two as another such set would have it: what they show lies for the most part within cooks.
 * That of kept trays, that of lost ones, and that of the two kinds are taken up by what is supposed of cooks.
 */
function scatterWithCooks(pairs: ReadonlyArray<RatioPair>): Scatter {
  const kinds = [true, false]
    .map((lost) => pairs.filter(({ tray }) => isLost(tray) === lost))
    .filter((some) => some.length > 0);
  const size = cookSize(pairs.map(({ tray }) => tray));
  const more = {
    within: 1 + (size * supposedLikeness.kept) / (1 - supposedLikeness.kept),
    between: 1 + (size - 1) * supposedLikeness.loss,
  };
  const [all, each] = [scatterOf(pairs), kinds.map(scatterOf)];
  return (one, other) => {
    const within = each.reduce((sum, scatter) => sum + scatter(one, other), 0);
    return more.within * within + more.between * (all(one, other) - within);
  };
}

/** Trays of one cook share its luck, so cooks are the units where there are at least three; else each tray is one. */
function unitSums(pairs: ReadonlyArray<RatioPair>): { units: UnitSums[]; unitName: "cooks" | "trays" } {
  const byCook = new Map<string, UnitSums>();
  for (const { tray, numerator, denominator } of pairs) {
    if (tray.batch === undefined) return { units: [...pairs], unitName: "trays" };
    const sums = byCook.get(tray.batch) ?? { numerator: 0, denominator: 0 };
    byCook.set(tray.batch, sums);
    sums.numerator += numerator;
    sums.denominator += denominator;
  }
  return byCook.size >= leastUnits
    ? { units: [...byCook.values()], unitName: "cooks" }
    : { units: [...pairs], unitName: "trays" };
}

const ratioOf = (units: ReadonlyArray<UnitSums>): number => {
  let [above, below] = [0, 0];
  for (const { numerator, denominator } of units) {
    above += numerator;
    below += denominator;
  }
  return above / below;
};

/**
 * A ratio of sums over trays, such as money over grams, with Fieller's interval over cooks (over trays where cooks are
 * few or not recorded, with what is supposed of cooks: with one cook or two the scatter of trays alone held the ratio of
 * another set in 76 to 80 % of books).
 * @param pairs one per tray; the denominators must add up to more than 0
 */
export function ratioOverCooks(pairs: ReadonlyArray<RatioPair>, level: number): RatioOverCooks {
  const { units, unitName } = unitSums(pairs);
  const count = units.length;
  const value = ratioOf(units);
  const plain = { value, units: count, unitName };
  if (count < leastUnits) {
    return { ...plain, low: undefined, high: undefined, says: `too few ${unitName} for an interval` };
  }
  const scatter = unitName === "cooks" ? scatterOf(units) : scatterWithCooks(pairs);
  const moment: Scatter = (one, other) => scatter(one, other) / (count - 1) / count;
  const means: FiellerMeans = {
    numerator: meanOf(units, "numerator"),
    denominator: meanOf(units, "denominator"),
    varianceNumerator: moment("numerator", "numerator"),
    varianceDenominator: moment("denominator", "denominator"),
    covariance: moment("numerator", "denominator"),
    degreesOfFreedom: count - 1,
  };
  const set = fiellerRatio({ ...means, level });
  const supposed =
    unitName === "cooks"
      ? ""
      : `, with ${supposedLikeness.kept} of the variance of kept trays and ${supposedLikeness.loss} of that of losses supposed to lie between cooks`;
  const [low, high] = set.kind === "bounded" ? [set.low, set.high] : [undefined, undefined];
  return { ...plain, means, low, high, says: `${set.says}${supposed}` };
}
