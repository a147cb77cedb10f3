import { dayNumber } from "../../measures/day-number.ts";
import type { CostLine } from "../../records/cost-line.ts";
import { nameKey } from "../../records/name-key.ts";

/** One line of costs.csv with the days it is in force. */
export interface PriceVersion {
  line: CostLine;
  /** place in the list of cost lines */
  index: number;
  /** day number of the first day; -Infinity when it always was */
  from: number;
  /** day number of the first day on which a later line replaces it; Infinity when none does */
  until: number;
}

/** What lines have in common that are one item for the same trays. */
export const itemKey = ({ item, onlyWhereColumn, onlyWhereValue }: CostLine): string =>
  JSON.stringify([nameKey(item), onlyWhereColumn, nameKey(onlyWhereValue)]);

/**
 * Says from which day to which each cost line is in force. A dated line replaces the earlier lines of the same item, for
 * the same trays and the same base; when the item had no line with that base before, it replaces all its earlier lines
 * (the grower changed what the item is counted per). Lines of one item with equal dates are both in force.
 * @returns one version per line, in the order given
 * @throws RangeError if a fromDate is no date
 * @example priceVersions([bran, branFromMarch])[0].until // 20513
 */
export function priceVersions(lines: ReadonlyArray<CostLine>): PriceVersion[] {
  const versions = lines.map((line, index) => ({
    line,
    index,
    from: line.fromDate === undefined ? Number.NEGATIVE_INFINITY : dayNumber(line.fromDate),
    until: Number.POSITIVE_INFINITY,
  }));
  const keys = lines.map(itemKey);
  for (const later of versions) {
    const earlier = versions.filter(({ index, from }) => from < later.from && keys[index] === keys[later.index]);
    const sameBase = earlier.filter(({ line }) => line.per === later.line.per);
    for (const version of sameBase.length > 0 ? sameBase : earlier) {
      version.until = Math.min(version.until, later.from);
    }
  }
  return versions;
}

/**
 * Whether a version's price holds on a day. A day that is not known takes the price that holds now, the last one.
 * @param day day number, or undefined when not recorded
 */
export const isInForce = ({ from, until }: PriceVersion, day: number | undefined): boolean =>
  day === undefined ? until === Number.POSITIVE_INFINITY : from <= day && day < until;
