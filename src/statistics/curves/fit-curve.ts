import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import { bootstrapCurve } from "./bootstrap-curve.ts";
import { type CurveColumns, type CurveData, curveData, offsetCount } from "./curve-data.ts";
import type { CurveForm } from "./curve-form.ts";
import { type CurveFormName, curveForms } from "./curve-forms.ts";
import { type LackOfFit, lackOfFit } from "./curve-lack-of-fit.ts";
import { type CurveEstimate, estimateCurve } from "./estimate-curve.ts";
import { type InformationCriteria, informationCriteria } from "./information-criteria.ts";
import { type ParameterInterval, profileInterval } from "./profile-interval.ts";
import { type ReplicateCells, replicateCells } from "./replicate-cells.ts";

export interface FitCurveInput extends CurveColumns {
  /** a form's name, or a form of one's own made by `customForm` */
  form: CurveFormName | CurveForm;
  /** starting values for the form's parameters, in their order; found from the data when absent, or when the search from them fails */
  start?: ReadonlyArray<number>;
  /** interval level; 0.95 when absent */
  level?: number;
  /** whether profile intervals are worked out (the default, up to 1,000 different doses times blocks) or left out to save time */
  profile?: boolean;
  /** asks for bootstrap intervals too */
  bootstrap?: { replicates: number; seed: number };
}

/** One parameter of a fitted curve. */
export interface CurveParameter {
  name: string;
  estimate: number;
  standardError: number;
  t: number;
  /** two-sided, against 0 */
  p: number;
  /** estimate plus and minus t times the standard error */
  waldInterval: { low: number; high: number };
  /** the values the data do not contradict; better than the Wald interval when the curve is far from linear. The Wald interval when profiles were left out. */
  interval: ParameterInterval;
  intervalMethod: "profile likelihood" | "t interval, exact for this form" | "t interval, approximate";
  /** percentile interval; only when asked for */
  bootstrapInterval?: { low: number; high: number };
}

/** The curve at one dose, for the average block. */
export interface CurveMean {
  dose: number;
  mean: number;
  standardError: number;
  low: number;
  high: number;
}

export interface FittedCurve extends InformationCriteria {
  kind: "fitted";
  form: CurveForm;
  name: string;
  label: string;
  equation: string;
  parameters: CurveParameter[];
  /** the parameters' estimates in their order */
  estimates: number[];
  /** covariance of the form's parameters */
  covariance: number[][];
  /** what each block adds to the curve; they sum to 0. Empty without blocks */
  blockOffsets: { block: string; offset: number }[];
  n: number;
  residualSumOfSquares: number;
  degreesOfFreedom: number;
  /** residual standard deviation */
  sigma: number;
  fitted: number[];
  residuals: number[];
  level: number;
  lackOfFit: LackOfFit;
  lowestDose: number;
  highestDose: number;
  iterations: number;
  /** what a reader should know of this fit, sentences without a full stop */
  remarks: string[];
  /** bootstrap refits that did not settle; only when a bootstrap was asked for */
  bootstrapUnsettled?: number;
  /** the curve's mean at a dose with its interval (delta method) */
  meanAt(dose: number, level?: number): CurveMean;
}

/** A form these data could not fix, and why, in a plain sentence without a full stop. */
export interface CurveNotFitted {
  kind: "not-fitted";
  form: CurveForm;
  name: string;
  label: string;
  equation: string;
  reason: string;
}

/** With more different doses (times blocks) than this the t interval does as well as the profile, which would take long. */
const mostCellsToProfile = 1000;

/**
 * Fits one form of curve to responses at doses by least squares, with or without an additive offset for each block.
 * @returns the fit, or the plain reason why there is none (too few doses, flat data, no minimum, parameters that cannot be separated)
 * @throws RangeError if columns are empty, of different lengths or not finite, a weight is not above 0, the level is not between
 *   0 and 1, the form is not known or the start has the wrong length
 * @source least squares and profile t: Bates and Watts 1988, Nonlinear Regression Analysis and Its Applications, chapter
 *   6
 * @example fitCurve({ form: "quadratic", doses: [1, 1, 2, 2], responses: [3, 4, 5, 6] }).reason // 'the form "quadratic" needs at least 3 different doses; there are 2'
 */
export function fitCurve(input: FitCurveInput): FittedCurve | CurveNotFitted {
  const form: CurveForm | undefined = typeof input.form === "string" ? curveForms[input.form] : input.form;
  if (!form)
    throw new RangeError(`fitCurve: form must be one of ${Object.keys(curveForms).join(", ")}; received ${input.form}`);
  const level = input.level ?? 0.95;
  requireOpenProbability("fitCurve", "level", level);
  const data = curveData("fitCurve", input);
  if (input.start) {
    requireFinite("fitCurve", "start", input.start);
    if (input.start.length !== form.parameters.length) {
      throw new RangeError(
        `fitCurve: start must hold ${form.parameters.join(", ")}; received ${input.start.length} values`,
      );
    }
  }
  const estimate = estimateCurve(form, data, input.start ? [input.start] : undefined);
  if (estimate.kind === "none") {
    const { name, label, equation } = form;
    return { kind: "not-fitted", form, name, label, equation, reason: estimate.reason };
  }
  return describe({ form, data, estimate, level, input });
}

/** What the parts of a fit's description start from. */
interface Described {
  form: CurveForm;
  data: CurveData;
  estimate: CurveEstimate;
  level: number;
  input: FitCurveInput;
  /** the form's parameters alone */
  estimates: number[];
  covariance: number[][];
  residualSumOfSquares: number;
  degreesOfFreedom: number;
}

function describe(start: Pick<Described, "form" | "data" | "estimate" | "level" | "input">): FittedCurve {
  const { form, data, estimate, level, input } = start;
  const n = data.doses.length;
  const count = form.parameters.length;
  const total = count + offsetCount(data);
  const degreesOfFreedom = n - total;
  const size = data.responses.reduce((sum, y, i) => sum + (data.rootWeights[i]! * y) ** 2, 0);
  // below this the residuals are rounding, and the fit is perfect
  const residualSumOfSquares = estimate.residualSumOfSquares <= 1e-29 * n * size ? 0 : estimate.residualSumOfSquares;
  const variance = residualSumOfSquares / degreesOfFreedom;
  const estimates = Array.from(estimate.parameters.subarray(0, count));
  const covariance = estimates.map((_, a) => estimates.map((__, b) => estimate.inverseCrossProduct[a]![b]! * variance));
  const described = { ...start, estimates, covariance, residualSumOfSquares, degreesOfFreedom };
  const cells = replicateCells(data);
  const refits = input.bootstrap ? bootstrapCurve({ ...input.bootstrap, form, data, estimate, level }) : undefined;
  const parameters = describeParameters(described, cells, refits?.intervals);
  const offsets = Array.from(estimate.parameters.subarray(count));
  if (offsets.length > 0) offsets.push(-offsets.reduce((sum, offset) => sum + offset, 0));
  const logWeights = data.rootWeights.reduce((sum, root) => sum + 2 * Math.log(root), 0);
  const fitted = Array.from(data.doses, (dose, i) => form.value(dose, estimates) + (offsets[data.blockOf[i]!] ?? 0));
  return {
    kind: "fitted",
    form,
    name: form.name,
    label: form.label,
    equation: form.equation,
    parameters,
    estimates,
    covariance,
    blockOffsets: data.blockNames.map((block, k) => ({ block, offset: offsets[k]! })),
    n,
    residualSumOfSquares,
    degreesOfFreedom,
    sigma: Math.sqrt(variance),
    ...informationCriteria(residualSumOfSquares, n, total, logWeights),
    fitted,
    residuals: fitted.map((value, i) => data.responses[i]! - value),
    level,
    lackOfFit: lackOfFit(data, residualSumOfSquares, total),
    lowestDose: data.differentDoses[0]!,
    highestDose: data.differentDoses.at(-1)!,
    iterations: estimate.iterations,
    remarks: remarksOn(described, parameters, cells),
    ...(refits ? { bootstrapUnsettled: refits.unsettled } : {}),
    meanAt: meanOf(described),
  };
}

/** Whether profile intervals are asked for and mean anything. */
const wantsProfiles = ({ form, input, residualSumOfSquares }: Described): boolean =>
  !form.linear && input.profile !== false && residualSumOfSquares > 0;

function describeParameters(
  described: Described,
  cells: ReplicateCells,
  bootstrapIntervals: ReadonlyArray<{ low: number; high: number }> | undefined,
): CurveParameter[] {
  const { form, estimate, level, estimates, covariance, residualSumOfSquares, degreesOfFreedom } = described;
  const critical = studentTQuantile((1 + level) / 2, degreesOfFreedom);
  const standardErrors = estimates.map((_, j) => Math.sqrt(covariance[j]![j]!));
  const isProfiled = wantsProfiles(described) && cells.members.length <= mostCellsToProfile;
  const profiled = {
    form,
    data: cells.means,
    parameters: estimate.parameters,
    residualSumOfSquares: estimateOnCells(residualSumOfSquares, cells.withinSumOfSquares),
    standardErrors,
    variance: residualSumOfSquares / degreesOfFreedom,
  };
  return form.parameters.map((name, j): CurveParameter => {
    const value = estimates[j]!;
    const standardError = standardErrors[j]!;
    const t = value === 0 ? 0 : value / standardError;
    const wald = { low: value - critical * standardError, high: value + critical * standardError };
    const closed: ParameterInterval = { ...wald, lowOpen: false, highOpen: false };
    return {
      name,
      estimate: value,
      standardError,
      t,
      p: Number.isFinite(t) ? studentTTwoTailed(t, degreesOfFreedom) : 0,
      waldInterval: wald,
      interval: isProfiled ? profileInterval(profiled, j, critical) : closed,
      intervalMethod: isProfiled
        ? "profile likelihood"
        : form.linear
          ? "t interval, exact for this form"
          : "t interval, approximate",
      ...(bootstrapIntervals ? { bootstrapInterval: bootstrapIntervals[j]! } : {}),
    };
  });
}

function remarksOn(described: Described, parameters: ReadonlyArray<CurveParameter>, cells: ReplicateCells): string[] {
  const { form, data, estimate, estimates } = described;
  const remark = form.remark?.(estimates, data);
  const open = parameters.filter(({ interval }) => interval.lowOpen || interval.highOpen).map(({ name }) => name);
  const tooMany = wantsProfiles(described) && cells.members.length > mostCellsToProfile;
  return [
    ...(remark ? [remark] : []),
    ...(estimate.restarted
      ? ["the search from the given starting values failed, so values found from the data were used"]
      : []),
    ...(open.length > 0 ? [`the data set no limit on one side of ${open.join(" and ")}`] : []),
    ...(tooMany
      ? [`with more than ${mostCellsToProfile} different doses in blocks the intervals are t intervals, not profiles`]
      : []),
  ];
}

/** The curve's mean at any dose, with its interval. */
function meanOf({ form, estimates, covariance, level, degreesOfFreedom }: Described): FittedCurve["meanAt"] {
  const gradient = new Float64Array(estimates.length);
  return (dose, meanLevel = level) => {
    requireFinite("meanAt", "dose", [dose]);
    requireOpenProbability("meanAt", "level", meanLevel);
    form.gradient(dose, estimates, gradient);
    let spread = 0;
    for (let a = 0; a < estimates.length; a++) {
      for (let b = 0; b < estimates.length; b++) spread += gradient[a]! * gradient[b]! * covariance[a]![b]!;
    }
    const standardError = Math.sqrt(Math.max(spread, 0));
    const half = studentTQuantile((1 + meanLevel) / 2, degreesOfFreedom) * standardError;
    const mean = form.value(dose, estimates);
    return { dose, mean, standardError, low: mean - half, high: mean + half };
  };
}

/** The residual sum of squares of the same fit to the cell means: what is left once the scatter within cells is taken out. */
function estimateOnCells(residualSumOfSquares: number, within: number): number {
  return Math.max(residualSumOfSquares - within, 0);
}
