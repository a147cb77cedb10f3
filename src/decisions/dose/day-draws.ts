import { chiSquareDraw } from "../../statistics/random/chi-square-draw.ts";
import type { SeededRandom } from "../../statistics/random/seeded-random.ts";
import type { PlacedTray, TestedDoses } from "./tested-doses.ts";

/** Days of a good tray over dose, drawn, and of a lost one. */
export interface DayDraws {
  /** per draw and grid dose; draw i at grid place j is `days[i * points + j]` */
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

/** Sums of one group of trays: a cook, or all of them. */
function aroundMeans(
  trays: ReadonlyArray<PlacedTray>,
  doses: ReadonlyArray<number>,
  groupOf: (tray: PlacedTray) => number,
) {
  const groups = new Map<number, { n: number; x: number; y: number }>();
  for (const tray of trays) {
    const group = groups.get(groupOf(tray)) ?? { n: 0, x: 0, y: 0 };
    group.n += tray.trays;
    group.x += tray.trays * doses[tray.doseAt]!;
    group.y += tray.trays * tray.days!;
    groups.set(groupOf(tray), group);
  }
  let [xx, xy, yy] = [0, 0, 0];
  for (const tray of trays) {
    const group = groups.get(groupOf(tray))!;
    const x = doses[tray.doseAt]! - group.x / group.n;
    const y = tray.days! - group.y / group.n;
    xx += tray.trays * x * x;
    xy += tray.trays * x * y;
    yy += tray.trays * y * y;
  }
  return { xx, xy, yy, groups: groups.size };
}

/** Least squares of days on dose, each cook at its own level; where no cook has two doses, without levels. */
function dayLine(trays: ReadonlyArray<PlacedTray>, doses: ReadonlyArray<number>): DayLine {
  const count = trays.reduce((sum, tray) => sum + tray.trays, 0);
  const centre = trays.reduce((sum, tray) => sum + tray.trays * doses[tray.doseAt]!, 0) / count;
  const mean = trays.reduce((sum, tray) => sum + tray.trays * tray.days!, 0) / count;
  const range = doses.at(-1)! - doses[0]!;
  let sums = aroundMeans(trays, doses, ({ cookAt }) => cookAt);
  if (!(sums.xx > 1e-9 * range * range)) sums = aroundMeans(trays, doses, () => 0);
  const sloping = sums.xx > 1e-9 * range * range;
  const slope = sloping ? sums.xy / sums.xx : 0;
  return {
    centre,
    mean,
    slope,
    trays: count,
    squares: sloping ? sums.xx : Number.POSITIVE_INFINITY,
    degreesOfFreedom: trays.length - sums.groups - (sloping ? 1 : 0),
    residual: Math.max(0, sums.yy - slope * sums.xy),
  };
}

/**
 * Draws the days of a good tray over dose: a straight line with errors of t, cooks at their own levels.
 * @returns undefined where no good tray has its days
 */
export function dayDraws(
  { doses, trays }: TestedDoses,
  grid: ReadonlyArray<number>,
  draws: number,
  random: SeededRandom,
): DayDraws | undefined {
  const dated = trays.filter(({ days }) => days !== undefined);
  const good = dated.filter(({ lost }) => !lost);
  if (good.length === 0) return undefined;
  const line = dayLine(good, doses);
  const shortest = good.reduce((least, { days }) => Math.min(least, days!), Number.POSITIVE_INFINITY);
  const points = grid.length;
  const days = new Float64Array(draws * points);
  const known = line.degreesOfFreedom >= 1 && line.residual > 0;
  for (let i = 0; i < draws; i++) {
    const sigma = known ? Math.sqrt(line.residual / chiSquareDraw(line.degreesOfFreedom, random)) : 0;
    const level = line.mean + (known ? (sigma * random.normal()) / Math.sqrt(line.trays) : 0);
    const slope = line.slope + (known ? (sigma * random.normal()) / Math.sqrt(line.squares) : 0);
    // a line can run down to no days at all beyond the data; half the shortest time seen is the least that is believed
    for (let j = 0; j < points; j++)
      days[i * points + j] = Math.max(shortest / 2, level + slope * (grid[j]! - line.centre));
  }
  const lostTrays = dated.filter(({ lost }) => lost);
  const lostCount = lostTrays.reduce((sum, tray) => sum + tray.trays, 0);
  if (lostCount === 0) return { days };
  return { days, lostDays: lostTrays.reduce((sum, tray) => sum + tray.trays * tray.days!, 0) / lostCount };
}
