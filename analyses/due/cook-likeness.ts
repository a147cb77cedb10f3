import type { Wait } from "./wait-sample.ts";

/** What is supposed of trays whose cooks tell nothing, and its weight in cooks. Common practice, no source. */
const supposed = { likeness: 0.3, cooks: 4 };

/**
 * Share of the variance of the days (on logarithms) that lies between cooks: the intraclass correlation of a one-way
 * analysis of variance, drawn towards 0.3 where cooks are few.
 * @param waits those that ended are used
 * @returns 0 to 0.95
 * @source Donner 1986, International Statistical Review 54(1):67-82 (from memory)
 */
export function cookLikeness(waits: ReadonlyArray<Wait>): number {
  const groups = new Map<string, { n: number; sum: number; squares: number }>();
  for (const { lower, upper, group } of waits) {
    if (upper !== lower + 1) continue;
    const days = Math.log(lower + 1);
    const one = groups.get(group) ?? { n: 0, sum: 0, squares: 0 };
    groups.set(group, { n: one.n + 1, sum: one.sum + days, squares: one.squares + days ** 2 });
  }
  const every = [...groups.values()];
  const n = every.reduce((total, one) => total + one.n, 0);
  const [cooks, within] = [every.length, n - every.length];
  if (cooks < 2 || within < 1) return supposed.likeness;
  const mean = every.reduce((total, { sum }) => total + sum, 0) / n;
  const between = every.reduce((total, one) => total + one.n * (one.sum / one.n - mean) ** 2, 0) / (cooks - 1);
  const inside = every.reduce((total, one) => total + one.squares - one.sum ** 2 / one.n, 0) / within;
  const size = (n - every.reduce((total, one) => total + one.n ** 2, 0) / n) / (cooks - 1);
  const variance = Math.max(0, (between - inside) / size);
  const total = variance + Math.max(0, inside);
  const found = total > 1e-12 ? variance / total : supposed.likeness;
  const weight = cooks - 1;
  const likeness = (weight * found + supposed.cooks * supposed.likeness) / (weight + supposed.cooks);
  return Math.min(0.95, likeness);
}
