import type { CurveData } from "./curve-data.ts";

/** One way a response can bend with the dose: an equation, its derivatives and how to find starting values. */
export interface CurveForm {
  /** short name, in lower case with hyphens */
  name: string;
  /** in words: "quadratic", "saturating hyperbola" */
  label: string;
  /** in symbols, x the dose and y the response */
  equation: string;
  parameters: ReadonlyArray<string>;
  /** the range each parameter may take; the form means something else outside it */
  range: ReadonlyArray<readonly [low: number, high: number]>;
  /** true when y is a sum of parameters times known functions of x, so that intervals are exact */
  linear: boolean;
  /** different doses needed before the form can be seen */
  dosesNeeded: number;
  value(x: number, parameters: ArrayLike<number>): number;
  /** derivatives of the value by each parameter, written into `into` */
  gradient(x: number, parameters: ArrayLike<number>, into: Float64Array): void;
  /** starting values worth searching from, best first; empty when the data cannot give any */
  starts(data: CurveData): number[][];
  /** finds the least-squares parameters directly, in place of a search from starting values; undefined when there are none */
  solve?(data: CurveData, held?: Held): DirectSolution | undefined;
  /** true when the curve has a corner, where derivatives jump and a search by derivatives would lose its way */
  cornered?: boolean;
  /**
   * Why estimates mean that the form was not found in these data, or nothing. With `stopped` the search ended without a
   * minimum, and the parameter that was running away is named from less extreme values.
   */
  objection?(parameters: ArrayLike<number>, data: CurveData, stopped: boolean): string | undefined;
  /** what a reader should know of estimates that stand */
  remark?(parameters: ArrayLike<number>, data: CurveData): string | undefined;
}

/** One parameter kept at a value while the others are fitted. */
export interface Held {
  index: number;
  value: number;
}

/** Parameters of the form, the block offsets, and the residual sum of squares they leave. */
export interface DirectSolution {
  parameters: number[];
  offsets: number[];
  residualSumOfSquares: number;
}

/** The whole line, for parameters without limits. */
export const anyValue: readonly [number, number] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
/** Above 0. */
export const aboveZero: readonly [number, number] = [0, Number.POSITIVE_INFINITY];

/**
 * A form of one's own for `fitCurve`, for instance one from a paper.
 * @param starts starting values to search from; all are tried
 * @param gradient derivatives by each parameter; without it they are found by differences (about 10 digits)
 * @throws RangeError without parameters or without starting values
 * @example customForm({ name: "power", parameters: ["a", "b"], value: (x, p) => p[0]! * x ** p[1]!, starts: [[1, 1]] }).parameters.length // 2
 */
export function customForm(given: {
  name: string;
  label?: string;
  equation?: string;
  parameters: ReadonlyArray<string>;
  value(x: number, parameters: ArrayLike<number>): number;
  gradient?(x: number, parameters: ArrayLike<number>, into: Float64Array): void;
  starts: number[][];
  range?: ReadonlyArray<readonly [number, number]>;
}): CurveForm {
  if (given.parameters.length === 0) throw new RangeError("customForm: at least one parameter is needed");
  if (given.starts.length === 0 || given.starts.some((start) => start.length !== given.parameters.length)) {
    throw new RangeError(`customForm: starts must hold lists of ${given.parameters.length} values`);
  }
  return {
    name: given.name,
    label: given.label ?? given.name,
    equation: given.equation ?? given.name,
    parameters: given.parameters,
    range: given.range ?? given.parameters.map(() => anyValue),
    linear: false,
    dosesNeeded: given.parameters.length,
    value: given.value,
    gradient: given.gradient ?? differences(given.value),
    starts: () => given.starts,
  };
}

/** Derivatives by central differences at two spacings, combined (Richardson) so that the error is of fourth order. */
function differences(value: CurveForm["value"]): CurveForm["gradient"] {
  return (x, parameters, into) => {
    const moved = Float64Array.from(parameters);
    const slope = (j: number, spacing: number): number => {
      const centre = parameters[j]!;
      moved[j] = centre + spacing;
      const above = value(x, moved);
      const up = moved[j]!;
      moved[j] = centre - spacing;
      const fall = (above - value(x, moved)) / (up - moved[j]!);
      moved[j] = centre;
      return fall;
    };
    for (let j = 0; j < parameters.length; j++) {
      const spacing = 1e-3 * (Math.abs(parameters[j]!) || 1e-3);
      into[j] = (4 * slope(j, spacing / 2) - slope(j, spacing)) / 3;
    }
  };
}
