import { clusteredErrors } from "../../src/statistics/counts/clustered-errors.ts";
import { logisticRegression } from "../../src/statistics/counts/logistic-regression.ts";

/** Trays with a known end and an amount that may have changed it. */
export interface OddsOfLossInput {
  lost: ReadonlyArray<boolean>;
  amount: ReadonlyArray<number>;
  /** what trays share by accident: cook or jar; errors allow for it where there are enough */
  clusters?: ReadonlyArray<string>;
  /** the test that the amount changes nothing, by name */
  test: { name: "permutation" | "Mantel's test within cooks, less sure where they disagree"; p(): number };
  level: number;
}

/** How the odds of losing a tray change with one more unit of an amount. */
export interface OddsOfLoss {
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

/** Clusters in the order met, neighbours taken together where there are too many. */
function coarsened(clusters: ReadonlyArray<string>): string[] {
  const numbers = new Map<string, number>();
  for (const cluster of clusters) if (!numbers.has(cluster)) numbers.set(cluster, numbers.size);
  const together = Math.ceil(numbers.size / mostClusters);
  return clusters.map((cluster) => String(Math.floor(numbers.get(cluster)! / together)));
}

/**
 * Odds of loss over an amount: logistic regression, bias-reduced where the outcomes are separated, errors by cluster where
 * there are ten clusters or more.
 * @returns the reason where it cannot be worked out
 */
export function oddsOfLoss(input: OddsOfLossInput): OddsOfLoss | { kind: "none"; reason: string } {
  const { lost, amount, test, level } = input;
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
        )[1]!
      : fit.coefficients[1]!;
    return {
      kind: "trend",
      oddsRatio: Math.exp(estimate),
      low: Math.exp(lower),
      high: Math.exp(upper),
      p: test.p(),
      trays: lost.length,
      method: `logistic regression${fit.separated ? ", bias-reduced" : ""}${byCluster ? `, errors by cluster${isCoarse ? `, neighbouring cooks taken together to make ${count}` : ""}` : ""}; p by ${test.name}`,
      separated: fit.separated,
      clusters: byCluster ? count : 0,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { kind: "none", reason: "its trays are too few or too much alike to fit odds" };
  }
}
