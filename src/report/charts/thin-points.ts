import { grouped } from "../../records/grouped.ts";
import { formatQuantity, type NumberSettings } from "../format-quantity.ts";

/** more points than this are thinned: they would hide each other and swell the file */
export const mostPoints = 600;

/**
 * A share of the points that still looks like all of them: within each group the points are put in order of value and
 * every n-th is kept, the smallest and largest always.
 * @param groupOf the group of a point; @param measureOf its value
 * @returns at most about `most` points in their first order (each group keeps at least two), and all of them when few
 */
export function thinPoints<Point>(
  points: ReadonlyArray<Point>,
  groupOf: (point: Point) => string,
  measureOf: (point: Point) => number,
  most = mostPoints,
): Point[] {
  if (points.length <= most) return [...points];
  const kept: number[] = [];
  for (const members of grouped(points.keys(), (index) => groupOf(points[index]!)).values()) {
    const sorted = members.toSorted((a, b) => measureOf(points[a]!) - measureOf(points[b]!) || a - b);
    const places = Math.min(sorted.length, Math.max(2, Math.floor((sorted.length * most) / points.length)));
    if (places === 1) kept.push(sorted[0]!);
    else
      for (let place = 0; place < places; place += 1)
        kept.push(sorted[Math.round((place * (sorted.length - 1)) / (places - 1))]!);
  }
  return kept.sort((a, b) => a - b).map((index) => points[index]!);
}

/** What a reader must know of thinned points; empty when all are drawn. */
export function thinningNote(drawn: number, all: number, settings: NumberSettings): string[] {
  const write = (value: number) => formatQuantity({ value, unit: "factor" }, settings);
  return drawn < all
    ? [
        `${write(drawn)} of ${write(all)} trays are drawn, spread evenly over the range of each group; the figures use all.`,
      ]
    : [];
}
