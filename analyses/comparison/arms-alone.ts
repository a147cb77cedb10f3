import { contrastTest } from "../../src/statistics/mixed-models/contrast-test.ts";
import { fitMixedModel, type MixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { armCells } from "./arm-cells.ts";
import type { Observation } from "./tray-response.ts";

/** An estimate with its standard error and degrees of freedom. */
export interface AloneEstimate {
  estimate: number;
  standardError: number;
  df: number;
}

/** The arms each group holds. */
export function armsByGroup(observations: ReadonlyArray<Observation>): Map<string, Set<string>> {
  const held = new Map<string, Set<string>>();
  for (const { groups, arm } of observations) {
    const own = held.get(groups[0]!);
    if (own === undefined) held.set(groups[0]!, new Set([arm]));
    else own.add(arm);
  }
  return held;
}

/** How many groups hold every one of the arms. */
export function groupsHolding(held: ReadonlyMap<string, ReadonlySet<string>>, arms: ReadonlyArray<string>): number {
  let groups = 0;
  for (const own of held.values()) if (arms.every((arm) => own.has(arm))) groups++;
  return groups;
}

function fitted(used: ReadonlyArray<Observation>, arms: ReadonlyArray<string>, inner: boolean): MixedModel {
  return fitMixedModel({
    response: used.map(({ value }) => value),
    terms:
      arms.length === 1
        ? []
        : [{ kind: "factor", name: "arm", values: used.map(({ arm }) => arm), reference: arms[0]! }],
    random: [
      { name: "group", groups: used.map(({ groups }) => groups[0]!) },
      ...(inner ? [{ name: "arm in group", groups: used.map(({ arm }) => arm), within: "group" }] : []),
    ],
  });
}

/**
 * The mean of one arm, or the difference of two (second less first), from their own observations and no others: what to
 * use where the other arms scatter so much that they drown what is common to all.
 * @returns undefined where these observations alone cannot carry the model
 */
export function armsAlone(
  observations: ReadonlyArray<Observation>,
  arms: readonly [string] | readonly [string, string],
): AloneEstimate | undefined {
  const used = observations.filter(({ arm }) => (arms as ReadonlyArray<string>).includes(arm));
  const cells = armCells(used).length;
  const outer = new Set(used.map(({ groups }) => groups[0]!)).size;
  const inner = arms.length === 2 && cells > outer && used.length > cells;
  try {
    const { estimate, standardError, df } = contrastTest(fitted(used, arms, inner), arms.length === 1 ? [1] : [0, 1]);
    return [estimate, standardError, df].every(Number.isFinite) ? { estimate, standardError, df } : undefined;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return undefined;
  }
}
