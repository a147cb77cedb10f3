import type { ComparedTray } from "../../src/decisions/verdict/index.ts";
import { responseSurface } from "../../src/statistics/curves/response-surface.ts";

/** A second-order surface over dose and a second amount, with the coding taken back. */
export interface TwoAmounts {
  /** its shape in words: "a single top" */
  says: string;
  /** the top, where it lies among the amounts tried */
  stationary: { dose: number; amount: number; value: number } | undefined;
  /** largest value of the surface over the amounts tried */
  best: { dose: number; amount: number; value: number };
  /** the surface over the amounts tried, evenly spaced: one row for each amount, one number for each dose */
  grid: { doses: number[]; amounts: number[]; values: number[][] };
  /** the pairs of amounts that trays had */
  tried: { dose: number; amount: number; trays: number }[];
}

/** Above this many cooks an offset for each costs too much; cook means are then taken out before the fit. */
const mostBlocks = 60;

function withoutBlockMeans(values: ReadonlyArray<number>, blocks: ReadonlyArray<string>): number[] {
  const sums = new Map<string, { sum: number; count: number }>();
  values.forEach((value, k) => {
    const entry = sums.get(blocks[k]!) ?? { sum: 0, count: 0 };
    sums.set(blocks[k]!, entry);
    entry.sum += value;
    entry.count++;
  });
  const grand = values.reduce((sum, value) => sum + value / values.length, 0);
  return values.map((value, k) => value - sums.get(blocks[k]!)!.sum / sums.get(blocks[k]!)!.count + grand);
}

const coding = (values: ReadonlyArray<number>) => {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const [middle, half] = [(low + high) / 2, (high - low) / 2];
  return { code: (value: number) => (value - middle) / half, back: (coded: number) => middle + half * coded, half };
};

const steps = 40;
const gridCells = 18;

function triedPairs(points: ReadonlyArray<{ dose: number; amount: number }>): TwoAmounts["tried"] {
  const pairs = new Map<string, TwoAmounts["tried"][number]>();
  for (const { dose, amount } of points) {
    const pair = pairs.get(`${dose} ${amount}`) ?? { dose, amount, trays: 0 };
    pairs.set(`${dose} ${amount}`, pair);
    pair.trays++;
  }
  return [...pairs.values()];
}

/**
 * Fits a second-order response surface over dose and a second amount, both coded from -1 to 1, cooks as blocks. It describes;
 * whether the two depend on one another is the verdict rules' to say.
 * @param trays `level` and `other` are the two amounts
 * @returns undefined with fewer than three levels of either, or the two tied together
 */
export function twoAmounts(trays: ReadonlyArray<ComparedTray>): TwoAmounts | undefined {
  const points = trays.flatMap(({ level, other, value, cook }) =>
    typeof level === "number" && typeof other === "number" && value !== "lost"
      ? [{ dose: level, amount: other, value, cook }]
      : [],
  );
  if (points.length < 8) return undefined;
  const across = coding(points.map(({ dose }) => dose));
  const up = coding(points.map(({ amount }) => amount));
  if (!(across.half > 0 && up.half > 0)) return undefined;
  const blocks = points.map(({ cook }) => cook);
  const blocked = blocks.every((block) => block !== undefined) && new Set(blocks).size > 1;
  const many = new Set(blocks).size > mostBlocks;
  const own = points.map(({ value }) => value);
  const surface = responseSurface({
    x1: points.map(({ dose }) => across.code(dose)),
    x2: points.map(({ amount }) => up.code(amount)),
    responses: blocked && many ? withoutBlockMeans(own, blocks as string[]) : own,
    ...(blocked && !many ? { blocks: blocks as string[] } : {}),
  });
  if (surface === undefined) return undefined;
  let best = { u: -1, v: -1, value: Number.NEGATIVE_INFINITY };
  for (let i = 0; i <= steps; i++) {
    for (let j = 0; j <= steps; j++) {
      const [u, v] = [-1 + (2 * i) / steps, -1 + (2 * j) / steps];
      const value = surface.valueAt(u, v);
      if (value > best.value) best = { u, v, value };
    }
  }
  const { stationary, shape, says } = surface.canonical;
  const top = shape === "maximum" && stationary?.insideRegion ? stationary : undefined;
  const middles = Array.from({ length: gridCells }, (_, cell) => (2 * cell + 1) / gridCells - 1);
  return {
    says,
    stationary:
      top === undefined ? undefined : { dose: across.back(top.x1), amount: up.back(top.x2), value: top.value },
    best: { dose: across.back(best.u), amount: up.back(best.v), value: best.value },
    grid: {
      doses: middles.map(across.back),
      amounts: middles.map(up.back),
      values: middles.map((v) => middles.map((u) => surface.valueAt(u, v))),
    },
    tried: triedPairs(points),
  };
}
