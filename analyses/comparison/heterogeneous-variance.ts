import { cholesky } from "../../src/statistics/linear-algebra/cholesky.ts";
import type { ArmCell } from "./arm-cells.ts";

/** Variances of a fitted model: between groups, of an arm from group to group, and within. */
export interface FittedVariances {
  group: number;
  cell: number;
  residual: number;
  /** differences of arms within groups were judged by the scatter of single observations, nothing lying between */
  onlyScatter: boolean;
}

/** Standard error and degrees of freedom of an estimate. */
export interface Precision {
  standardError: number;
  df: number;
}

/** Fewest degrees of freedom for the spread of one arm. */
const fewestDegrees = 2;

/**
 * Lets every arm keep its own scatter within groups: the part of an estimate's variance that comes from the scatter of
 * trays is reckoned anew with each arm's own variance in place of the pooled one, and degrees of freedom follow.
 * @param cells arms in groups with their counts and sums of squares
 * @param arms in the order of the weights asked about
 * @returns a correction of an estimate's precision, given its weights over the arms' means; or undefined where some arm has
 *   too few trays sharing a group to show its own scatter
 * @source the weights are those of generalised least squares; degrees of freedom: Satterthwaite 1946, Biometrics Bulletin
 *   2(6):110-114; a variance of its own for each arm: Welch 1947, Biometrika 34(1/2):28-35
 */
export function heterogeneousVariance(
  cells: ReadonlyArray<ArmCell>,
  arms: ReadonlyArray<string>,
  variances: FittedVariances,
): ((weights: ReadonlyArray<number>, pooled: Precision) => Precision) | undefined {
  const position = new Map(arms.map((arm, index) => [arm, index]));
  const squares = arms.map(() => 0);
  const degrees = arms.map(() => 0);
  const groups = new Map<string, { arm: number; count: number }[]>();
  for (const { arm: name, group, count, squares: own } of cells) {
    const arm = position.get(name)!;
    squares[arm]! += own;
    degrees[arm]! += count - 1;
    const members = groups.get(group) ?? [];
    groups.set(group, members);
    members.push({ arm, count });
  }
  if (degrees.some((df) => df < fewestDegrees)) return undefined;
  const variance = squares.map((sum, arm) => sum / degrees[arm]!);
  const allDegrees = degrees.reduce((sum, df) => sum + df, 0);
  const pooledVariance = squares.reduce((sum, own) => sum + own, 0) / allDegrees;

  // cell means of a group share the group's variance, and each adds its own on the diagonal
  const within = ({ count }: { count: number }) => variances.cell + variances.residual / count;
  const shrink = (members: ReadonlyArray<{ count: number }>) =>
    variances.group / (1 + variances.group * members.reduce((sum, one) => sum + 1 / within(one), 0));
  const information = arms.map(() => new Float64Array(arms.length));
  for (const members of groups.values()) {
    const common = shrink(members);
    for (const a of members) {
      information[a.arm]![a.arm]! += 1 / within(a);
      for (const b of members) information[a.arm]![b.arm]! -= common / (within(a) * within(b));
    }
  }
  const covariance = cholesky(information)?.inverse();
  if (covariance === undefined) return undefined;

  return (weights, pooled) => {
    const carried = arms.map((_, b) => weights.reduce((sum, weight, a) => sum + weight * covariance[a]![b]!, 0));
    // how much of each arm's scatter the estimate takes in
    const intake = arms.map(() => 0);
    for (const members of groups.values()) {
      const common = shrink(members) * members.reduce((sum, one) => sum + carried[one.arm]! / within(one), 0);
      for (const one of members) {
        const share = (carried[one.arm]! - common) / within(one);
        intake[one.arm]! += (share * share) / one.count;
      }
    }
    const whole = intake.reduce((sum, own) => sum + own, 0);
    const ownScatter = intake.reduce((sum, own, arm) => sum + own * variance[arm]!, 0);
    const before = pooled.standardError ** 2;
    const after = Math.max(before + ownScatter - whole * pooledVariance, ownScatter);
    const contrast = Math.abs(weights.reduce((sum, weight) => sum + weight, 0)) < 1e-12;
    let doubt = 0;
    if (contrast && variances.onlyScatter) {
      // the pooled variance is all scatter, and the arms' own takes its place
      const between = Math.max(0, before - whole * pooledVariance);
      doubt =
        between ** 2 / pooled.df + degrees.reduce((sum, df, arm) => sum + (intake[arm]! * variance[arm]!) ** 2 / df, 0);
    } else {
      // the pooled variance comes from groups, or from arms in groups, and is as sure as those are many
      doubt =
        before ** 2 / pooled.df +
        degrees.reduce((sum, df, arm) => {
          const moved = (intake[arm]! - (df / allDegrees) * whole) * variance[arm]!;
          return sum + moved ** 2 / df;
        }, 0);
    }
    return { standardError: Math.sqrt(after), df: Math.max(1, after ** 2 / doubt) };
  };
}
