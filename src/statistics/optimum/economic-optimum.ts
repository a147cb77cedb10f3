import { type CurveFormName, curveForms } from "../curves/curve-forms.ts";
import { requireFinite, requirePositive } from "../require-numbers.ts";
import { bestOnRange } from "./best-on-range.ts";

/** What a unit of product brings and a unit of input costs, and the doses that were tried. */
export interface OptimumPrices {
  /** net price of one unit of product, after fees and the cost of handling it; above 0 */
  pricePerUnit: number;
  /** cost of one unit of input; 0 for a free input */
  costPerUnit: number;
  lowestDose: number;
  highestDose: number;
}

export interface EconomicOptimumInput extends OptimumPrices {
  form: CurveFormName;
  /** the curve's parameters in the form's order */
  parameters: ReadonlyArray<number>;
}

/** A dose the curve singles out, wherever it lies, or why there is none. */
export type SingledOutDose = { kind: "at"; dose: number } | { kind: "none"; reason: string };

/** The dose that earns most within the doses tried. */
export interface EconomicOptimum {
  dose: number;
  /** "inside" and "join" are reached; at an end of the tested doses the curve is still climbing outwards, or falls from the start */
  where: "inside" | "join" | "lowest" | "highest" | "anywhere";
  /** false when the best tested dose is an end point: the optimum itself was not reached */
  reached: boolean;
  /** cost of a unit of input over price of a unit of product: the extra yield a unit of input must bring */
  costPriceRatio: number;
  /** product per tray there */
  yield: number;
  /** price x yield - cost x dose: margin over the input, before all other costs */
  margin: number;
  /** the optimum of the curve taken beyond the tested doses */
  unrestricted: SingledOutDose;
  /** the dose of highest yield on the curve, input cost left out */
  highestYield: SingledOutDose;
  /** one plain sentence without a full stop */
  says: string;
}

/**
 * The dose of an input at which the last unit just pays for itself, under a fitted curve, held to the doses that were tried.
 * @throws RangeError if the price is not above 0, the cost is below 0, the range is empty, a value is not finite or the number of
 *   parameters is not the form's
 * @source equating marginal value and marginal cost: Dillon and Anderson 1990, The Analysis of Response in Crop and
 *   Livestock Production, chapter 2 (from memory); model dependence: Cerrato and Blackmer 1990, Agronomy Journal
 *   82(1):138-143
 * @example economicOptimum({ form: "quadratic", parameters: [40, 6, -0.2], pricePerUnit: 0.5, costPerUnit: 0.4, lowestDose: 0, highestDose: 20 }).dose // 13
 */
export function economicOptimum(input: EconomicOptimumInput): EconomicOptimum {
  const { form: name, parameters, pricePerUnit, costPerUnit, lowestDose, highestDose } = input;
  const form = curveForms[name];
  if (!form)
    throw new RangeError(
      `economicOptimum: form must be one of ${Object.keys(curveForms).join(", ")}; received ${name}`,
    );
  if (parameters.length !== form.parameters.length) {
    throw new RangeError(
      `economicOptimum: ${name} has ${form.parameters.length} parameters; received ${parameters.length}`,
    );
  }
  requireFinite("economicOptimum", "parameters", parameters);
  requirePositive("economicOptimum", "pricePerUnit", pricePerUnit);
  requireFinite("economicOptimum", "costPerUnit, lowestDose, highestDose", [costPerUnit, lowestDose, highestDose]);
  if (costPerUnit < 0) throw new RangeError(`economicOptimum: costPerUnit must be 0 or more; received ${costPerUnit}`);
  if (lowestDose > highestDose) {
    throw new RangeError(
      `economicOptimum: lowestDose must not be above highestDose; received ${lowestDose}, ${highestDose}`,
    );
  }
  const ratio = costPerUnit / pricePerUnit;
  const unrestricted = unrestrictedDose(name, parameters, ratio, input);
  const highestYield = unrestrictedDose(name, parameters, 0, input);
  const marginAt = (dose: number) => pricePerUnit * form.value(dose, parameters) - costPerUnit * dose;
  const [marginLow, marginHigh] = [marginAt(lowestDose), marginAt(highestDose)];
  let dose = marginHigh > marginLow ? highestDose : lowestDose;
  let where: EconomicOptimum["where"] = marginHigh > marginLow ? "highest" : "lowest";
  const inRange = unrestricted.kind === "at" && unrestricted.dose >= lowestDose && unrestricted.dose <= highestDose;
  if (inRange && marginAt(unrestricted.dose) >= Math.max(marginLow, marginHigh)) {
    dose = unrestricted.dose;
    where = name === "linear-plateau" || (name === "quadratic-plateau" && costPerUnit === 0) ? "join" : "inside";
  } else if (isFlat(name, parameters, ratio)) {
    where = "anywhere";
  }
  const optimum = { dose, where, reached: where === "inside" || where === "join" };
  return {
    ...optimum,
    costPriceRatio: ratio,
    yield: form.value(dose, parameters),
    margin: marginAt(dose),
    unrestricted,
    highestYield,
    says: sentence(optimum.where, unrestricted),
  };
}

function isFlat(name: CurveFormName, parameters: ReadonlyArray<number>, ratio: number): boolean {
  return (name === "straight-line" && parameters[1] === ratio) || (name === "no-response" && ratio === 0);
}

function sentence(where: EconomicOptimum["where"], unrestricted: SingledOutDose): string {
  const beyond = unrestricted.kind === "at" ? "" : `; ${unrestricted.reason}`;
  switch (where) {
    case "inside":
      return "beyond this dose the next unit of input costs more than the yield it adds is worth";
    case "join":
      return "up to this dose each unit of input pays for itself; beyond it the yield is level";
    case "highest":
      return `the optimum was not reached: the best tested is the highest dose${beyond}`;
    case "lowest":
      return `input does not pay for itself within the tested doses: the best tested is the lowest dose${beyond}`;
    case "anywhere":
      return "every dose earns the same on this curve";
  }
}

const none = (reason: string): SingledOutDose => ({ kind: "none", reason });
const at = (dose: number): SingledOutDose => ({ kind: "at", dose });

/** Where the slope of the curve falls to `ratio`, over all doses (0 and up for curves that start at 0). */
function unrestrictedDose(
  name: CurveFormName,
  p: ReadonlyArray<number>,
  ratio: number,
  range: OptimumPrices,
): SingledOutDose {
  const [first, second, third] = p;
  switch (name) {
    case "no-response":
    case "straight-line":
      return none("a straight line has no best dose");
    case "quadratic":
      return third! < 0
        ? at((ratio - second!) / (2 * third!))
        : none("the curve does not bend downwards, so it has no top");
    case "quadratic-plateau":
      return second! < 0
        ? at(third! + ratio / (2 * second!))
        : none("the curve does not bend downwards, so it has no top");
    case "linear-plateau":
      return second! > ratio ? at(third!) : none("the slope before the plateau does not pay for the input");
    case "asymptotic-exponential":
      return whereExponentialSlopeIs(second! * third!, third!, 0, ratio);
    case "exponential-through-origin":
      return whereExponentialSlopeIs(first! * second!, second!, 0, ratio);
    case "mitscherlich":
      return whereExponentialSlopeIs(first! * second!, second!, third!, ratio);
    case "hyperbola":
      return whereHyperbolaSlopeIs(first!, second!, ratio);
    case "hyperbola-with-offset":
      return whereHyperbolaSlopeIs(second!, third!, ratio);
    case "logistic":
    case "logistic-with-floor":
    case "richards":
      return topOfSigmoid(name, p, ratio, range);
  }
}

/** slope(x) = initial exp(-rate (x + shift)) = ratio */
function whereExponentialSlopeIs(initial: number, rate: number, shift: number, ratio: number): SingledOutDose {
  if (initial <= 0) return none("the curve does not rise");
  if (ratio === 0) return none("the curve keeps rising towards its ceiling");
  return at(Math.log(initial / ratio) / rate - shift);
}

/** slope(x) = rise half / (half + x)^2 = ratio */
function whereHyperbolaSlopeIs(rise: number, half: number, ratio: number): SingledOutDose {
  if (rise <= 0) return none("the curve does not rise");
  if (ratio === 0) return none("the curve keeps rising towards its ceiling");
  return at(Math.sqrt((rise * half) / ratio) - half);
}

/** An S-shaped curve can have its slope equal to the ratio twice; the top is sought over and well beyond the tested doses. */
function topOfSigmoid(
  name: "logistic" | "logistic-with-floor" | "richards",
  p: ReadonlyArray<number>,
  ratio: number,
  { lowestDose, highestDose }: OptimumPrices,
): SingledOutDose {
  if (ratio === 0) return none("the curve keeps rising towards its ceiling");
  const span = highestDose - lowestDose || 1;
  const far = highestDose + 10 * span;
  const top = bestOnRange((dose) => curveForms[name].value(dose, p) - ratio * dose, lowestDose, far, [highestDose]);
  return top.where === "inside" ? at(top.at) : none("the curve is never steep enough to pay for the input");
}
