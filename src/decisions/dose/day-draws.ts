import { chiSquareDraw } from "../../statistics/random/chi-square-draw.ts";
import type { SeededRandom } from "../../statistics/random/seeded-random.ts";
import { meanDays } from "./seen-doses.ts";
import type { TestedDoses, TrayColumns } from "./tested-doses.ts";

/** Days of a good tray over dose, drawn, and of a lost one. */
export interface DayDraws {
  /** per grid dose and draw; draw i at grid place j is `days[j * draws + i]` */
  days: Float64Array;
  /** mean days of lost trays; absent where none is known: as long as a good one */
  lostDays?: number;
}

/** A straight line of days over dose, and how well it is known. */
interface DayLine {
  centre: number;
  mean: number;
  slope: number;
  /** trays, weighted squares of dose about its mean (within cooks), degrees of freedom, residual squares */
  trays: number;
  squares: number;
  degreesOfFreedom: number;
  residual: number;
}

/** Sums of squares and products of dose and days about the means of groups of good, dated trays. */
function aroundMeans(
  { dose, trays, days }: TrayColumns,
  rows: number[],
  doses: ReadonlyArray<number>,
  groupOf: Int32Array,
) {
  const groups = groupOf.reduce((most, group) => Math.max(most, group), 0) + 1;
  const n = new Float64Array(groups);
  const x = new Float64Array(groups);
  const y = new Float64Array(groups);
  for (const row of rows) {
    const group = groupOf[row]!;
    n[group]! += trays[row]!;
    x[group]! += trays[row]! * doses[dose[row]!]!;
    y[group]! += trays[row]! * days[row]!;
  }
  let [xx, xy, yy] = [0, 0, 0];
  for (const row of rows) {
    const group = groupOf[row]!;
    const dx = doses[dose[row]!]! - x[group]! / n[group]!;
    const dy = days[row]! - y[group]! / n[group]!;
    xx += trays[row]! * dx * dx;
    xy += trays[row]! * dx * dy;
    yy += trays[row]! * dy * dy;
  }
  return { xx, xy, yy, groups: n.reduce((sum, count) => sum + (count > 0 ? 1 : 0), 0) };
}

/** Least squares of days on dose, each cook at its own level; where no cook has two doses, without levels. */
function dayLine(columns: TrayColumns, rows: number[], doses: ReadonlyArray<number>): DayLine {
  const { dose, cook, trays, days } = columns;
  const count = rows.reduce((sum, row) => sum + trays[row]!, 0);
  const centre = rows.reduce((sum, row) => sum + trays[row]! * doses[dose[row]!]!, 0) / count;
  const mean = rows.reduce((sum, row) => sum + trays[row]! * days[row]!, 0) / count;
  const range = doses.at(-1)! - doses[0]!;
  let sums = aroundMeans(columns, rows, doses, cook);
  if (!(sums.xx > 1e-9 * range * range)) sums = aroundMeans(columns, rows, doses, new Int32Array(columns.records));
  const sloping = sums.xx > 1e-9 * range * range;
  const slope = sloping ? sums.xy / sums.xx : 0;
  return {
    centre,
    mean,
    slope,
    trays: count,
    squares: sloping ? sums.xx : Number.POSITIVE_INFINITY,
    degreesOfFreedom: rows.length - sums.groups - (sloping ? 1 : 0),
    residual: Math.max(0, sums.yy - slope * sums.xy),
  };
}

/**
 * Draws the days of a good tray over dose: a straight line with errors of t, cooks at their own levels.
 * @returns undefined where no good tray has its days
 */
export function dayDraws(
  { doses, columns }: TestedDoses,
  grid: ReadonlyArray<number>,
  draws: number,
  random: SeededRandom,
): DayDraws | undefined {
  const rows: number[] = [];
  let shortest = Number.POSITIVE_INFINITY;
  for (let row = 0; row < columns.records; row++) {
    if (columns.lost[row] === 1 || Number.isNaN(columns.days[row])) continue;
    rows.push(row);
    shortest = Math.min(shortest, columns.days[row]!);
  }
  if (rows.length === 0) return undefined;
  const line = dayLine(columns, rows, doses);
  const points = grid.length;
  const days = new Float64Array(draws * points);
  const known = line.degreesOfFreedom >= 1 && line.residual > 0;
  for (let i = 0; i < draws; i++) {
    const sigma = known ? Math.sqrt(line.residual / chiSquareDraw(line.degreesOfFreedom, random)) : 0;
    const level = line.mean + (known ? (sigma * random.normal()) / Math.sqrt(line.trays) : 0);
    const slope = line.slope + (known ? (sigma * random.normal()) / Math.sqrt(line.squares) : 0);
    // a line can run down to no days at all beyond the data; half the shortest time seen is the least that is believed
    for (let j = 0; j < points; j++)
      days[j * draws + i] = Math.max(shortest / 2, level + slope * (grid[j]! - line.centre));
  }
  return { days, lostDays: meanDays(columns, 1) };
}
