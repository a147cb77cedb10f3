import { fUpperTail } from "../distributions/f.ts";
import { type DoubleDouble, sumOfSquares, toNumber } from "../linear-algebra/double-double.ts";
import { columnOfEntries, columnProduct, entry } from "../linear-algebra/double-double-column.ts";
import { doubleDoubleFactor } from "../linear-algebra/double-double-factor.ts";
import { designColumns, type TermValues } from "./design-columns.ts";
import type { LinearModel } from "./linear-model.ts";
import { interceptName, type TermCoding } from "./model-term.ts";

/** One line of an analysis of variance. */
export interface TermTest {
  term: string;
  degreesOfFreedom: number;
  sumOfSquares: number;
  meanSquare: number;
  /** mean square over the residual mean square; infinite for an exact fit, 0 when both are 0 */
  f: number;
  p: number;
}

/**
 * Analysis of variance with each term adjusted for the terms before it; the sums of squares add up to the regression's.
 * @returns one line per term in the order given; a term all of whose columns were dropped has no line
 * @source extra sums of squares: Seber and Lee 2003, Linear Regression Analysis, sections 3.7 to 3.9
 * @example sequentialTests(model)[0].sumOfSquares // 21.0125, with the set-up of linearModel
 */
export function sequentialTests(model: LinearModel): TermTest[] {
  const { factor, rotated, columns, codings } = model.working;
  return codings.flatMap((coding) => {
    const effects: DoubleDouble[] = [];
    factor.kept.forEach((position, k) => {
      if (columns[position]!.term === coding.name) effects.push(entry(rotated, k));
    });
    return effects.length === 0 ? [] : [termTest(model, coding.name, effects)];
  });
}

/**
 * Analysis of variance with each term adjusted for every other term that does not contain it: a main effect for the other
 * main effects but not for its own interactions (method of fitting constants).
 * @returns one line per term; a term the others already determine has no line
 * @source Yates 1934, Journal of the American Statistical Association 29(185):51-66; Nelder 1977, Journal of the Royal
 *   Statistical Society A 140(1):48-77
 * @example marginalTests(model)[0].f // 240.142..., with the set-up of linearModel
 */
export function marginalTests(model: LinearModel): TermTest[] {
  const { factor, codings, columns } = model.working;
  const rotatedByTerm = columns.map((column, j) => ({ term: column.term, entries: factor.rotatedColumns[j]! }));
  return codings.flatMap((coding) => {
    const others = rotatedByTerm.filter(({ term }) => term !== coding.name && !contains(codings, term, coding));
    const own = rotatedByTerm.filter(({ term }) => term === coding.name);
    return lastTermTest(model, coding.name, others, own);
  });
}

/**
 * Analysis of variance with each term adjusted for every other term, interactions included, where the effects of each factor
 * are deviations that sum to 0: a main effect is then the average over the other factor's levels, each counted once (weighted
 * squares of means). With a number in an interaction, the factor's main effect is at number 0. Needs an intercept.
 * @returns one line per term; a term the others already determine has no line
 * @throws RangeError if the model has no intercept, or an interaction of factors has empty cells, where these effects mean nothing
 * @source Yates 1934, Journal of the American Statistical Association 29(185):51-66
 * @example adjustedForAllTests(model)[0].f // 240.142..., with the set-up of linearModel
 */
export function adjustedForAllTests(model: LinearModel): TermTest[] {
  const { factor, codings, values, intercept, rootWeights } = model.working;
  if (!intercept) throw new RangeError("adjustedForAllTests: the model must have an intercept; received one without");
  const empty = emptyCombination(codings, values);
  if (empty !== undefined) {
    throw new RangeError(
      `adjustedForAllTests: every combination in an interaction of factors must have rows; received none with ${empty}`,
    );
  }
  const rank = factor.kept.length;
  const columns = designColumns(codings, values, model.observations, true, "deviation").map(
    ({ term, values: column }) => {
      const turned = factor.rotate(rootWeights === undefined ? column : columnProduct(column, rootWeights));
      return { term, entries: Array.from({ length: rank }, (_, i) => entry(turned, i)) };
    },
  );
  return codings.flatMap((coding) =>
    lastTermTest(
      model,
      coding.name,
      columns.filter(({ term }) => term !== coding.name),
      columns.filter(({ term }) => term === coding.name),
    ),
  );
}

/** A combination of levels, in words, that an interaction needs and no row has. */
function emptyCombination(codings: ReadonlyArray<TermCoding>, values: TermValues): string | undefined {
  for (const interaction of codings) {
    if (interaction.kind !== "interaction") continue;
    const factors = codings.filter((coding) => coding.kind === "factor" && interaction.of.includes(coding.name));
    const columns = factors.map(({ name }) => values.get(name)!);
    const present = new Set(columns[0]?.map((_, row) => JSON.stringify(columns.map((column) => column[row]))));
    let combinations: string[][] = [[]];
    for (const coding of factors) {
      const levels = coding.kind === "factor" ? coding.levels : [];
      combinations = combinations.flatMap((combination) => levels.map((level) => [...combination, level]));
    }
    const missing = factors.length > 1 && combinations.find((one) => !present.has(JSON.stringify(one)));
    if (missing) return missing.map((level, i) => `${factors[i]!.name} ${level}`).join(" and ");
  }
  return undefined;
}

interface RotatedColumn {
  term: string;
  entries: ReadonlyArray<DoubleDouble>;
}

function contains(codings: ReadonlyArray<TermCoding>, term: string, part: TermCoding): boolean {
  if (term === interceptName) return false;
  const coding = codings.find((candidate) => candidate.name === term)!;
  if (coding.kind !== "interaction") return false;
  const parts = part.kind === "interaction" ? part.of : [part.name];
  return coding.name !== part.name && parts.every((name) => coding.of.includes(name));
}

/** Tests the columns of one term placed after all others, in the coordinates of the fitted model. */
function lastTermTest(
  model: LinearModel,
  name: string,
  others: ReadonlyArray<RotatedColumn>,
  own: ReadonlyArray<RotatedColumn>,
): TermTest[] {
  const { factor, rotated } = model.working;
  const rank = factor.kept.length;
  const small = doubleDoubleFactor([...others, ...own].map(({ entries }) => columnOfEntries(entries)));
  const turned = small.rotate(columnOfEntries(Array.from({ length: rank }, (_, i) => entry(rotated, i))));
  const effects: DoubleDouble[] = [];
  small.kept.forEach((position, k) => {
    if (position >= others.length) effects.push(entry(turned, k));
  });
  return effects.length === 0 ? [] : [termTest(model, name, effects)];
}

function termTest(model: LinearModel, term: string, effects: ReadonlyArray<DoubleDouble>): TermTest {
  const sum = toNumber(sumOfSquares(effects));
  // an exact fit leaves nothing to compare with: effects that are rounding count as 0
  const sumOfSquaresOfTerm = model.exactFit && sum <= 1e-28 * model.total.sumOfSquares ? 0 : sum;
  const meanSquare = sumOfSquaresOfTerm / effects.length;
  const f = meanSquare === 0 ? 0 : meanSquare / model.residual.meanSquare;
  return {
    term,
    degreesOfFreedom: effects.length,
    sumOfSquares: sumOfSquaresOfTerm,
    meanSquare,
    f,
    p: fUpperTail(f, effects.length, model.residual.degreesOfFreedom),
  };
}
