import {
  requireNotNegative,
  requirePositive,
  requireShare,
  requireShareBelowOne,
} from "../../measures/require-amounts.ts";
import type { CostLine } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";

/**
 * Energy of a device that is on for a time and draws power for part of it.
 * @param duty share of the time it draws power, 0 to 1
 * @returns kilowatt hours
 * @throws RangeError if watts or hours is negative or the duty is no share
 * @example kilowattHours(1500, 2.5, 0.7) // 2.625
 */
export function kilowattHours(watts: number, hours: number, duty: number): number {
  requireNotNegative("kilowattHours", "watts", watts);
  requireNotNegative("kilowattHours", "hours", hours);
  requireShare("kilowattHours", "duty", duty);
  return (watts * hours * duty) / 1000;
}

/**
 * Wear of a reusable in one use: what it costs from purchase to replacement over the uses it is expected to give.
 * A piece that breaks is replaced without salvage; the use in which it breaks counts. With no breakage this is
 * (price - salvage)/uses, the straight line.
 * @param uses before it is replaced, above 0; for a life in years, years times uses a year
 * @param breakage share that breaks in each use, 0 or more, below 1
 * @returns money per use
 * @throws RangeError if an argument lies outside its range or the salvage is above the price
 * @source renewal reward: expected cost of a cycle over its expected length (Ross, Stochastic Processes; from memory).
 *   Expected length is the sum of (1 - b)^k for k from 0 to uses - 1, that is (1 - (1 - b)^uses)/b
 * @example depreciationPerUse(600, 60, 5 * 120, 0) // 0.9
 */
export function depreciationPerUse(price: number, salvage: number, uses: number, breakage: number): number {
  requireNotNegative("depreciationPerUse", "price", price);
  requireNotNegative("depreciationPerUse", "salvage", salvage);
  requirePositive("depreciationPerUse", "uses", uses);
  requireShareBelowOne("depreciationPerUse", "breakage", breakage);
  if (salvage > price) {
    throw new RangeError(`depreciationPerUse: salvage must not be above the price; received ${salvage} and ${price}`);
  }
  if (breakage === 0) return (price - salvage) / uses;
  const lossExponent = uses * Math.log1p(-breakage);
  const expectedUses = -Math.expm1(lossExponent) / breakage;
  return (price - salvage * Math.exp(lossExponent)) / expectedUses;
}

/** One use of a cost line in money, or why there is none. */
export type CostPerUse =
  | { kind: "cost-per-use"; money: number }
  | { kind: "cannot-tell"; reason: string; expected: string };

const cannot = (reason: string, expected: string): CostPerUse => ({ kind: "cannot-tell", reason, expected });

/** Uses in the life of a reusable, or why they are not known. A monthly line is used twelve times a year. */
function usesOf({ uses, lifeYears, usesPerYear, per }: CostLine): number | undefined {
  if (uses !== undefined) return uses;
  const perYear = usesPerYear ?? (per === "month" ? 12 : undefined);
  return lifeYears === undefined || perYear === undefined ? undefined : lifeYears * perYear;
}

/**
 * Fails on a cost line that breaks the record's own promises.
 * @throws RangeError naming the item, its row and the number that is wrong
 */
function requireCostLine(line: CostLine): void {
  const where = `cost line ${JSON.stringify(line.item)} (${line.source.file} row ${line.source.row})`;
  requireNotNegative(where, "packPrice", line.packPrice);
  requirePositive(where, "packSize", line.packSize);
  requireNotNegative(where, "amount", line.amount);
  for (const name of ["uses", "lifeYears", "usesPerYear", "expandsToJars", "normalTraysPerMonth"] as const) {
    if (line[name] !== undefined) requirePositive(where, name, line[name]);
  }
  for (const name of ["watts", "hours", "salvage", "packPriceLow", "packPriceHigh"] as const) {
    if (line[name] !== undefined) requireNotNegative(where, name, line[name]);
  }
  if (line.duty !== undefined) requireShare(where, "duty", line.duty);
  if (line.breakage !== undefined) requireShareBelowOne(where, "breakage", line.breakage);
}

/**
 * What one use of a cost line costs: per tray, per load, per jar, as the line's `per` says.
 * Energy given as watts and hours uses those; the owner's own hours without a price use the owner's rate; a culture
 * pack that is expanded is shared over the jars it makes; a reusable costs its wear.
 * Salvage is money for a whole pack, like the pack price.
 * @param packPrice instead of the line's own, to try another price
 * @returns money, or why this line cannot be costed
 * @throws RangeError if a number of the line is outside its range, naming item and row
 * @example costPerUse(bran, settings).money // 0.4712
 */
export function costPerUse(line: CostLine, settings: Readonly<Settings>, packPrice = line.packPrice): CostPerUse {
  requireCostLine(line);
  requireNotNegative(`cost line ${JSON.stringify(line.item)}`, "packPrice", packPrice);
  if (line.expandsToJars !== undefined) {
    if (line.per === "jar") return { kind: "cost-per-use", money: packPrice / line.expandsToJars };
    if (line.per === "inoculum mL") {
      requirePositive("costPerUse", "settings.jarMillilitres", settings.jarMillilitres);
      return { kind: "cost-per-use", money: packPrice / (line.expandsToJars * settings.jarMillilitres) };
    }
    return cannot("a pack expanded into jars can only be counted per jar or per mL of inoculum", "per: jar");
  }
  const amount =
    line.watts !== undefined && line.hours !== undefined
      ? kilowattHours(line.watts, line.hours, line.duty ?? 1)
      : line.amount;
  const packs = amount / line.packSize;
  if (line.kind === "reusable") {
    const uses = usesOf(line);
    if (uses === undefined) {
      return cannot("a reusable needs to say how long it lasts", "uses, or life_years with uses_per_year");
    }
    const salvage = line.salvage ?? 0;
    if (salvage > line.packPrice) return cannot("it recovers more than it cost", "a salvage below the pack price");
    // when another price is tried, what is recovered cannot pass it
    return {
      kind: "cost-per-use",
      money: packs * depreciationPerUse(packPrice, Math.min(salvage, packPrice), uses, line.breakage ?? 0),
    };
  }
  if (line.ownerLabour && packPrice === 0) {
    requireNotNegative("costPerUse", "settings.ownerLabourRate", settings.ownerLabourRate);
    return line.packUnit === "hour"
      ? { kind: "cost-per-use", money: amount * settings.ownerLabourRate }
      : cannot("the owner's time without a price is counted in hours", "pack_unit: hour");
  }
  return { kind: "cost-per-use", money: packs * packPrice };
}
