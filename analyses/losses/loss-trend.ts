import { clusteredErrors } from "../../src/statistics/counts/clustered-errors.ts";
import { logisticRegression } from "../../src/statistics/counts/logistic-regression.ts";
import { normalUpperTail } from "../../src/statistics/distributions/normal.ts";
import { permuteSlope } from "../../src/statistics/resampling/stratified-permutation.ts";

/** Trays with a known end and an amount that may have changed it. */
export interface LossTrendInput {
  lost: ReadonlyArray<boolean>;
  amount: ReadonlyArray<number>;
  /** what trays share by accident: cook or jar; errors allow for it where there are enough */
  clusters?: ReadonlyArray<string>;
  /** what the amount was dealt within */
  strata?: ReadonlyArray<string>;
  /** what the amount was given to as a whole, where not to trays */
  units?: ReadonlyArray<string>;
  /** of a test that was made already, within cooks; the amounts are permuted where it is absent */
  p?: number;
  level: number;
  /** of the dealing */
  seed?: number;
}

/** How the odds of losing a tray change with one more unit of an amount. */
export interface LossTrend {
  kind: "trend";
  oddsRatio: number;
  low: number;
  high: number;
  /** two-sided */
  p: number;
  trays: number;
  method: string;
  /** that estimates would have been infinite without bias reduction */
  separated: boolean;
  /** clusters the errors allow for; 0 when trays are taken one by one */
  clusters: number;
}

/** Errors by cluster are too small with fewer. */
const fewestClusters = 10;
/** With more, neighbouring cooks are taken together, and the method says so: larger clusters allow for all that smaller ones do. */
const mostClusters = 300;
/** Work of the permutation: draws times trays. */
const work = 4e6;
/** With more trays the sum over strata is normal for all purposes, and its moments give p without dealing. */
const mostDealt = 20_000;

/**
 * p that the amount goes with no more losses than chance within strata, from the exact mean and variance of the sum of the
 * lost trays' amounts, taken as normal.
 * @source Mantel 1963, Journal of the American Statistical Association 58(303):690-700
 */
function stratifiedTrendP({ lost, amount, strata }: Pick<LossTrendInput, "lost" | "amount" | "strata">): number {
  const sums = new Map<string, { trays: number; lost: number; amount: number; square: number; lostAmount: number }>();
  const origin = amount[0]!;
  lost.forEach((one, index) => {
    const key = strata?.[index] ?? "";
    const entry = sums.get(key) ?? { trays: 0, lost: 0, amount: 0, square: 0, lostAmount: 0 };
    sums.set(key, entry);
    const x = amount[index]! - origin;
    entry.trays++;
    entry.amount += x;
    entry.square += x * x;
    if (!one) return;
    entry.lost++;
    entry.lostAmount += x;
  });
  let [away, variance] = [0, 0];
  for (const { trays, lost: gone, amount: sum, square, lostAmount } of sums.values()) {
    if (trays < 2) continue;
    away += lostAmount - (gone * sum) / trays;
    const squares = Math.max(0, square - (sum * sum) / trays);
    variance += (gone * (trays - gone) * squares) / (trays * (trays - 1));
  }
  if (!(variance > 0)) throw new RangeError("the amount does not vary where trays can be compared");
  return Math.min(1, 2 * normalUpperTail(Math.abs(away) / Math.sqrt(variance)));
}

/** Clusters in the order met, neighbours taken together where there are too many. */
function coarsened(clusters: ReadonlyArray<string>): string[] {
  const numbers = new Map<string, number>();
  for (const cluster of clusters) if (!numbers.has(cluster)) numbers.set(cluster, numbers.size);
  const together = Math.ceil(numbers.size / mostClusters);
  return clusters.map((cluster) => String(Math.floor(numbers.get(cluster)! / together)));
}

/**
 * Odds of loss over an amount: logistic regression, bias-reduced where the outcomes are separated, errors by cluster where
 * there are ten clusters or more; p by permutation of the amounts within strata, or from the moments of that permutation.
 * @returns the reason where it cannot be worked out
 */
export function lossTrend(input: LossTrendInput): LossTrend | { kind: "none"; reason: string } {
  const { lost, amount, strata, units, level, seed = 1 } = input;
  const clusters = input.clusters === undefined ? undefined : coarsened(input.clusters);
  const cells = new Map<string, { amount: number; cluster: string; lost: number; trays: number }>();
  lost.forEach((one, index) => {
    const cluster = clusters?.[index] ?? "";
    const key = JSON.stringify([amount[index], cluster]);
    const cell = cells.get(key) ?? { amount: amount[index]!, cluster, lost: 0, trays: 0 };
    cells.set(key, cell);
    cell.trays++;
    if (one) cell.lost++;
  });
  const rows = [...cells.values()];
  try {
    const fit = logisticRegression({
      successes: rows.map((row) => row.lost),
      trials: rows.map(({ trays }) => trays),
      columns: [{ name: "amount", values: rows.map((row) => row.amount) }],
      level,
      profiles: rows.length <= 500,
    });
    const count = new Set(rows.map(({ cluster }) => cluster)).size;
    const byCluster = count >= fewestClusters;
    const isCoarse = count < new Set(input.clusters).size;
    const { estimate, lower, upper } = byCluster
      ? clusteredErrors(
          fit,
          rows.map(({ cluster }) => cluster),
        ).coefficients[1]!
      : fit.coefficients[1]!;
    const dealt = units !== undefined || lost.length <= mostDealt;
    const dealtP = () =>
      permuteSlope(
        {
          response: lost.map((one) => (one ? 1 : 0)),
          amount,
          ...(strata === undefined ? {} : { strata }),
          ...(units === undefined ? {} : { clusters: units }),
        },
        { seed, draws: Math.max(299, Math.min(3999, Math.floor(work / lost.length))) },
      ).p;
    const p = input.p ?? (dealt ? dealtP() : stratifiedTrendP(input));
    return {
      kind: "trend",
      oddsRatio: Math.exp(estimate),
      low: Math.exp(lower),
      high: Math.exp(upper),
      p,
      trays: lost.length,
      method: `logistic regression${fit.method === "bias-reduced likelihood" ? ", bias-reduced" : ""}${byCluster ? `, errors by cluster${isCoarse ? `, neighbouring cooks taken together to make ${count}` : ""}` : ""}; p by ${input.p === undefined && dealt ? "permutation" : "Mantel's test within strata"}`,
      separated: fit.separation.kind !== "none",
      clusters: byCluster ? count : 0,
    };
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    return { kind: "none", reason: error.message };
  }
}
