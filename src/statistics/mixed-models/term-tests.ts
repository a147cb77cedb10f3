import { type JointTest, jointTest, type TestOptions } from "./contrast-test.ts";
import { estimableWeights } from "./estimable-weights.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import type { FixedColumn, FixedDesign } from "./fixed-design.ts";

/** The test of one term of the fixed part. */
export interface TermTest extends JointTest {
  term: string;
  /** "equally weighted cells": level means averaged over the other factors with equal weights; "columns left": some cells
   *  are empty, so only what the kept columns of this term can show is tested */
  hypothesis: "equally weighted cells" | "columns left";
}

/** All ways of choosing a level other than the reference for each factor. */
function levelChoices(design: FixedDesign, factors: ReadonlyArray<string>): Map<string, string>[] {
  let choices = [new Map<string, string>()];
  for (const factor of factors) {
    const others = design.factorLevels.get(factor)!.slice(1);
    choices = choices.flatMap((choice) => others.map((level) => new Map([...choice, [factor, level]])));
  }
  return choices;
}

/** Weight of a column in the contrast of the chosen levels with the reference, averaged evenly over all other factors. */
function cellWeight(
  design: FixedDesign,
  column: FixedColumn,
  choice: ReadonlyMap<string, string>,
  numbers: ReadonlySet<string>,
): number {
  const sameNumbers = column.numbers.size === numbers.size && [...numbers].every((name) => column.numbers.has(name));
  if (!sameNumbers) return 0;
  for (const [factor, level] of choice) if (column.levels.get(factor) !== level) return 0;
  let weight = 1;
  for (const factor of column.levels.keys()) {
    if (!choice.has(factor)) weight /= design.factorLevels.get(factor)!.length;
  }
  return weight;
}

/**
 * F test of each term: that its level means (each averaged over the other factors with equal weights) do not differ, that
 * its slope is 0, or that the interaction is absent. Marginal (each term after all others), so the order does not matter.
 * With a number in an interaction or a power term, main effects are those where that number is 0.
 * @throws RangeError as `contrastTest`
 * @source weighted squares of means: Yates 1934, Journal of the American Statistical Association 29(185):51-66
 * @example termTests(fit)[0] // { term: "dose", numeratorDf: 2, denominatorDf: 6, ... }, with the set-up of fitMixedModel
 */
export function termTests(fit: MixedModel, options: TestOptions = {}): TermTest[] {
  const { design } = fit.working;
  const tests: TermTest[] = [];
  for (const term of design.terms) {
    const rows = levelChoices(design, term.factors).map((choice) =>
      estimableWeights(design, fit.working.columns, (column) => cellWeight(design, column, choice, term.numbers)),
    );
    const complete = rows.every((row) => row !== undefined);
    const usable = complete ? (rows as number[][]) : keptColumnsOf(fit, term.name);
    if (usable.length === 0) continue; // every column of the term is collinear; the fit's notes name them
    tests.push({
      term: term.name,
      hypothesis: complete ? "equally weighted cells" : "columns left",
      ...jointTest(fit, usable, options),
    });
  }
  return tests;
}

function keptColumnsOf(fit: MixedModel, term: string): number[][] {
  const { design, columns } = fit.working;
  const rows: number[][] = [];
  columns.kept.forEach((position, k) => {
    if (design.columns[position]!.term === term) rows.push(fit.coefficientNames.map((_, j) => (j === k ? 1 : 0)));
  });
  return rows;
}
