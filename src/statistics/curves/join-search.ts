import type { CurveData } from "./curve-data.ts";

const pointsPerInterval = 16;
const mostIntervals = 60;

/**
 * The join that leaves the smallest sum of squares: a grid inside every interval between different doses (the sum is smooth
 * within one), then golden-section search round the two best places. Doses themselves are on the grid.
 * @param from position of the first dose that may be the join, among the different doses in ascending order
 * @param sumAt residual sum of squares with the join given; Infinity where there is no fit
 * @internal
 */
export function bestJoin(
  data: CurveData,
  from: number,
  sumAt: (join: number) => number,
): { join: number; sum: number } {
  const doses = data.differentDoses.slice(from);
  const stride = Math.max(1, Math.ceil((doses.length - 1) / mostIntervals));
  const corners = doses.filter((_, k) => k % stride === 0 || k === doses.length - 1);
  const tried: { join: number; sum: number }[] = [];
  for (let k = 0; k < corners.length; k++) {
    tried.push({ join: corners[k]!, sum: sumAt(corners[k]!) });
    if (k + 1 === corners.length) break;
    for (let step = 1; step < pointsPerInterval; step++) {
      const join = corners[k]! + ((corners[k + 1]! - corners[k]!) * step) / pointsPerInterval;
      tried.push({ join, sum: sumAt(join) });
    }
  }
  const minima = tried
    .map((point, k) => ({ point, left: tried[k - 1], right: tried[k + 1] }))
    .filter(({ point, left, right }) => point.sum <= (left?.sum ?? Infinity) && point.sum <= (right?.sum ?? Infinity))
    .sort((a, b) => a.point.sum - b.point.sum)
    .slice(0, 2);
  let best = { join: doses[0] ?? 0, sum: Number.POSITIVE_INFINITY };
  for (const { point, left, right } of minima) {
    if (point.sum < best.sum) best = point;
    // at a dose the sum may have a corner, so the two sides are searched apart; elsewhere it is smooth
    const corner = corners.includes(point.join);
    const brackets: [number, number][] = corner
      ? [
          [left?.join ?? point.join, point.join],
          [point.join, right?.join ?? point.join],
        ]
      : [[left?.join ?? point.join, right?.join ?? point.join]];
    for (const [low, high] of brackets) {
      if (low === high) continue;
      const refined = goldenSection(sumAt, low, high);
      if (refined.sum < best.sum) best = refined;
    }
  }
  return best;
}

function goldenSection(sumAt: (join: number) => number, from: number, to: number): { join: number; sum: number } {
  const share = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let inner = high - share * (high - low);
  let outer = low + share * (high - low);
  let innerSum = sumAt(inner);
  let outerSum = sumAt(outer);
  for (let round = 0; round < 32; round++) {
    if (innerSum <= outerSum) {
      high = outer;
      [outer, outerSum] = [inner, innerSum];
      inner = high - share * (high - low);
      innerSum = sumAt(inner);
    } else {
      low = inner;
      [inner, innerSum] = [outer, outerSum];
      outer = low + share * (high - low);
      outerSum = sumAt(outer);
    }
  }
  return innerSum <= outerSum ? { join: inner, sum: innerSum } : { join: outer, sum: outerSum };
}
