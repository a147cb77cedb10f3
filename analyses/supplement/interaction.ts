import type { Factor } from "../../src/design/factor.ts";
import type { ModelTerm } from "../../src/statistics/linear-models/model-term.ts";
import { fitTerms, type TermContrast, type TermF, type TermsFit } from "../comparison/fit-terms.ts";
import type { Observation } from "../comparison/tray-response.ts";

/** A tray's result with the level of the second factor beside its dose. */
export interface CrossedObservation extends Observation {
  other: string;
}

/** The part of a dose × second factor layout in which every cell is filled. */
export interface CrossedGrid {
  observations: CrossedObservation[];
  doses: string[];
  others: string[];
  /** trays by dose (row) and other (column) */
  counts: number[][];
}

/** How much the second factor's level `other`, instead of `fromOther`, changes what going from one dose to another does. */
export interface InteractionContrast extends TermContrast {
  fromDose: string;
  dose: string;
  fromOther: string;
  other: string;
}

export interface Interaction {
  grid: CrossedGrid;
  fit: TermsFit;
  test: TermF;
  /** every two doses with every two levels of the other, intervals simultaneous (Bonferroni) */
  contrasts: InteractionContrast[];
  /** change of slope per unit of dose for each other level but the first; empty unless doses are numbers */
  slopes: (TermContrast & { other: string })[];
  /** mean of each cell as the model gives it */
  cellMean(dose: string, other: string): TermContrast;
}

/**
 * The levels of dose that were tried with every level of the second factor, each cell holding at least so many trays.
 * Levels of the second factor with too few doses are given up first.
 */
export function crossedGrid(
  observations: ReadonlyArray<Observation>,
  second: Factor,
  doses: ReadonlyArray<string>,
  leastPerCell: number,
): CrossedGrid | undefined {
  const crossed = observations.flatMap((one): CrossedObservation[] => {
    const other = second.level(one.source);
    return other === undefined ? [] : [{ ...one, other }];
  });
  const cells = new Map<string, number>();
  const keyOf = (dose: string, other: string) => `${dose}\n${other}`;
  for (const { arm, other } of crossed) cells.set(keyOf(arm, other), (cells.get(keyOf(arm, other)) ?? 0) + 1);
  const filled = (dose: string, other: string) => (cells.get(keyOf(dose, other)) ?? 0) >= leastPerCell;
  let others = [...new Set(crossed.map(({ other }) => other))]
    .filter((other) => doses.filter((dose) => filled(dose, other)).length >= 2)
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const complete = () => doses.filter((dose) => others.every((other) => filled(dose, other)));
  while (others.length > 2 && complete().length < 2) {
    const fewest = others.reduce((a, b) =>
      doses.filter((dose) => filled(dose, b)).length < doses.filter((dose) => filled(dose, a)).length ? b : a,
    );
    others = others.filter((other) => other !== fewest);
  }
  const kept = complete();
  if (others.length < 2 || kept.length < 2) return undefined;
  return {
    observations: crossed.filter(({ arm, other }) => kept.includes(arm) && others.includes(other)),
    doses: kept,
    others,
    counts: kept.map((dose) => others.map((other) => cells.get(keyOf(dose, other)) ?? 0)),
  };
}

const [doseTerm, otherTerm] = ["dose", "other"] as const;
const product = `${doseTerm} × ${otherTerm}`;

function slopesOf(grid: CrossedGrid, groupNames: ReadonlyArray<string>, level: number): Interaction["slopes"] {
  const measured = grid.observations.every(({ dose }) => dose !== undefined);
  if (!measured) return [];
  const terms: ModelTerm[] = [
    { kind: "number", name: doseTerm, values: grid.observations.map(({ dose }) => dose!) },
    {
      kind: "factor",
      name: otherTerm,
      values: grid.observations.map(({ other }) => other),
      reference: grid.others[0]!,
    },
    { kind: "interaction", of: [doseTerm, otherTerm] },
  ];
  const fit = fitTerms(grid.observations, terms, groupNames, level);
  return grid.others.slice(1).map((other) => ({
    other,
    ...fit.contrast({ [`${doseTerm} × ${otherTerm}: ${other}`]: 1 }),
  }));
}

/**
 * Tests whether a dose does the same at every level of a second factor, groups allowed for.
 * @throws RangeError if the model cannot be fitted
 */
export function interactionOf(grid: CrossedGrid, groupNames: ReadonlyArray<string>, level: number): Interaction {
  const { observations, doses, others } = grid;
  const terms: ModelTerm[] = [
    { kind: "factor", name: doseTerm, values: observations.map(({ arm }) => arm), reference: doses[0]! },
    { kind: "factor", name: otherTerm, values: observations.map(({ other }) => other), reference: others[0]! },
    { kind: "interaction", of: [doseTerm, otherTerm] },
  ];
  const fit = fitTerms(observations, terms, groupNames, level);
  const test = fit.test(product);
  if (test === undefined) throw new RangeError("the cooks leave nothing to tell the interaction by");
  const name = (dose: string, other: string) => `${doseTerm}: ${dose} × ${otherTerm}: ${other}`;
  const cell = (dose: string, other: string, sign: 1 | -1): Record<string, number> =>
    dose === doses[0] || other === others[0] ? {} : { [name(dose, other)]: sign };
  const pairsOf = (levels: ReadonlyArray<string>) =>
    levels.flatMap((from, k) => levels.slice(k + 1).map((to) => ({ from, to })));
  const all = pairsOf(doses).flatMap((dose) => pairsOf(others).map((other) => ({ dose, other })));
  const simultaneous = 1 - (1 - level) / all.length;
  return {
    grid,
    fit,
    test,
    contrasts: all.map(({ dose, other }) => ({
      fromDose: dose.from,
      dose: dose.to,
      fromOther: other.from,
      other: other.to,
      ...fit.contrast(
        {
          ...cell(dose.to, other.to, 1),
          ...cell(dose.from, other.to, -1),
          ...cell(dose.to, other.from, -1),
          ...cell(dose.from, other.from, 1),
        },
        simultaneous,
      ),
    })),
    slopes: slopesOf(grid, groupNames, level),
    cellMean: (dose, other) =>
      fit.contrast({
        intercept: 1,
        ...(dose === doses[0] ? {} : { [`${doseTerm}: ${dose}`]: 1 }),
        ...(other === others[0] ? {} : { [`${otherTerm}: ${other}`]: 1 }),
        ...cell(dose, other, 1),
      }),
  };
}
