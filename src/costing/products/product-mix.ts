import solver, { type Model, type SolveResult } from "javascript-lp-solver";
import { requireFinite, requireNotNegative, requirePositive } from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";

/** An amount not known exactly. */
export interface Range {
  low: number;
  mid: number;
  high: number;
}

/** A product as the plan sees it. */
export interface MakeProduct {
  name: string;
  madeOf: "fresh" | "dried";
  /** grams of that for one unit sold */
  gramsNeeded: number;
  /** what a unit sold leaves after fees, packaging and sending, the growing and drying of its mushrooms not taken off */
  earns: number;
  /** hours of work on one unit */
  hours: number;
  /** the most that can be sold in the month; absent: no limit */
  maxUnits?: number;
}

/** What the month has to work with. */
export interface MakeInput {
  products: ReadonlyArray<MakeProduct>;
  /** fresh grams there are, beside those of trays still to be started */
  freshGrams: Range;
  /** dried grams in stock */
  driedGrams: number;
  /** grams of fresh for one gram of dried */
  dryingRatio: number;
  dryingCostPerKgFresh: number;
  labourHours: number;
  /** trays that may still be started: how many at most, what one gives, costs and takes; absent: none */
  trays?: { places: number; freshGrams: Range; cost: number; hours: number };
}

/** One limit of the plan. */
export interface MakeLimit {
  limit: "fresh grams" | "dried grams" | "hours of work" | "tray places" | `most units of ${string}`;
  used: number;
  available: number;
  /** what one more would bring if units could be split: the marginal value */
  shadowPrice: number;
  /** what one more brings with whole units and trays; often 0, because one more gram makes no unit */
  gainInWholeUnits: number;
}

/** The mix that leaves most. */
export interface MakePlan {
  kind: "plan";
  units: { name: string; units: number; grams: number; earns: number }[];
  traysStarted: number;
  freshDried: number;
  freshLeft: number;
  driedLeft: number;
  hoursUsed: number;
  /** money the month leaves over the costs counted here */
  contributionMargin: number;
  limits: MakeLimit[];
}

type Case = keyof Range;
type Extra = Partial<Record<"fresh" | "dried" | "hours" | "places" | `most ${number}`, number>>;

function requireRange(name: string, range: Range): void {
  for (const key of ["low", "mid", "high"] as const) requireNotNegative("bestProductMix", `${name}.${key}`, range[key]);
  if (!(range.low <= range.mid && range.mid <= range.high)) {
    throw new RangeError(
      `bestProductMix: ${name} must rise from low to high; received ${range.low}, ${range.mid}, ${range.high}`,
    );
  }
}

function requireInput({ products, freshGrams, driedGrams, dryingRatio, ...rest }: MakeInput): void {
  for (const { name, gramsNeeded, earns, hours, maxUnits } of products) {
    requirePositive("bestProductMix", `gramsNeeded of ${name}`, gramsNeeded);
    requireFinite("bestProductMix", `earns of ${name}`, earns);
    requireNotNegative("bestProductMix", `hours of ${name}`, hours);
    if (maxUnits !== undefined) requireNotNegative("bestProductMix", `maxUnits of ${name}`, maxUnits);
  }
  requireRange("freshGrams", freshGrams);
  requireNotNegative("bestProductMix", "driedGrams", driedGrams);
  requirePositive("bestProductMix", "dryingRatio", dryingRatio);
  requireNotNegative("bestProductMix", "dryingCostPerKgFresh", rest.dryingCostPerKgFresh);
  requireNotNegative("bestProductMix", "labourHours", rest.labourHours);
  if (rest.trays === undefined) return;
  requireRange("trays.freshGrams", rest.trays.freshGrams);
  for (const key of ["places", "cost", "hours"] as const) {
    requireNotNegative("bestProductMix", `trays.${key}`, rest.trays[key]);
  }
}

/** The month as a linear programme: grams in kilograms, so that coefficients are of like size. */
function programme(input: MakeInput, at: Case, whole: boolean, extra: Extra): Model {
  const { products, trays } = input;
  const constraints: Model["constraints"] = {
    fresh: { max: input.freshGrams[at] / 1000 + (extra.fresh ?? 0) / 1000 },
    dried: { max: input.driedGrams / 1000 + (extra.dried ?? 0) / 1000 },
    hours: { max: input.labourHours + (extra.hours ?? 0) },
    places: { max: Math.floor(trays?.places ?? 0) + (extra.places ?? 0) },
  };
  const variables: Model["variables"] = {
    drying: { contributionMargin: -input.dryingCostPerKgFresh, fresh: 1, dried: -1 / input.dryingRatio },
  };
  const ints: Record<string, 1> = {};
  if (trays !== undefined) {
    variables.trays = {
      contributionMargin: -trays.cost,
      fresh: -trays.freshGrams[at] / 1000,
      hours: trays.hours,
      places: 1,
    };
    if (whole) ints.trays = 1;
  }
  products.forEach(({ madeOf, gramsNeeded, earns, hours, maxUnits }, index) => {
    variables[`units ${index}`] = {
      contributionMargin: earns,
      [madeOf]: gramsNeeded / 1000,
      hours,
      [`most ${index}`]: 1,
    };
    if (maxUnits !== undefined) {
      constraints[`most ${index}`] = { max: Math.floor(maxUnits) + (extra[`most ${index}`] ?? 0) };
    }
    if (whole) ints[`units ${index}`] = 1;
  });
  // the solver's presolve (1.0.3) calls a limit whose coefficients are all 0 infeasible, so it is left off
  return { optimize: "contributionMargin", opType: "max", constraints, variables, ints, options: { presolve: false } };
}

function solve(
  input: MakeInput,
  at: Case,
  whole: boolean,
  extra: Extra = {},
): { contributionMargin: number; of(name: string): number } {
  const solved = solver.Solve(programme(input, at, whole, extra)) as SolveResult;
  if (!solved.feasible || solved.bounded === false || !Number.isFinite(solved.result)) {
    throw new Error("bestProductMix: the solver found no plan, although making nothing is one");
  }
  const of = (name: string): number => {
    const value = solved[name];
    return typeof value === "number" ? value : 0;
  };
  return { contributionMargin: solved.result, of };
}

/**
 * The mix of products, drying and trays to start that leaves most money in a steady month, in whole units and trays.
 * @param at which end of the ranges of grams to plan for
 * @returns the plan with its limits and what one more of each is worth; cannot-tell when there are no products
 * @throws RangeError if a number lies outside its range; Error if the solver fails
 * @source linear and mixed-integer programming; a marginal value is the optimum with one more less the optimum without
 * @example bestProductMix(input, "mid")
 */
export function bestProductMix(input: MakeInput, at: Case = "mid"): MakePlan | CannotTell {
  requireInput(input);
  const { products, trays } = input;
  if (products.length === 0) return cannotTell("there are no products");
  const best = solve(input, at, true);
  const split = solve(input, at, false);
  const unitsOf = products.map((_, index) => Math.round(best.of(`units ${index}`)));
  const traysStarted = trays === undefined ? 0 : Math.round(best.of("trays"));
  const freshDried = best.of("drying") * 1000;
  const gramsOf = (form: "fresh" | "dried"): number =>
    products.reduce(
      (sum, { madeOf, gramsNeeded }, index) => sum + (madeOf === form ? gramsNeeded * unitsOf[index]! : 0),
      0,
    );
  const fresh = input.freshGrams[at] + traysStarted * (trays?.freshGrams[at] ?? 0);
  const dried = input.driedGrams + freshDried / input.dryingRatio;
  const hoursUsed =
    traysStarted * (trays?.hours ?? 0) + products.reduce((sum, { hours }, index) => sum + hours * unitsOf[index]!, 0);
  const earned = products.reduce((sum, { earns }, index) => sum + earns * unitsOf[index]!, 0);

  const limit = (name: MakeLimit["limit"], extra: Extra, used: number, available: number): MakeLimit => ({
    limit: name,
    used,
    available,
    shadowPrice: Math.max(0, solve(input, at, false, extra).contributionMargin - split.contributionMargin),
    gainInWholeUnits: Math.max(0, solve(input, at, true, extra).contributionMargin - best.contributionMargin),
  });
  return {
    kind: "plan",
    units: products.map(({ name, gramsNeeded, earns }, index) => ({
      name,
      units: unitsOf[index]!,
      grams: gramsNeeded * unitsOf[index]!,
      earns: earns * unitsOf[index]!,
    })),
    traysStarted,
    freshDried,
    freshLeft: Math.max(0, fresh - freshDried - gramsOf("fresh")),
    driedLeft: Math.max(0, dried - gramsOf("dried")),
    hoursUsed,
    contributionMargin: earned - (freshDried / 1000) * input.dryingCostPerKgFresh - traysStarted * (trays?.cost ?? 0),
    limits: [
      limit("fresh grams", { fresh: 1 }, gramsOf("fresh") + freshDried, fresh),
      limit("dried grams", { dried: 1 }, gramsOf("dried"), dried),
      limit("hours of work", { hours: 1 }, hoursUsed, input.labourHours),
      ...(trays === undefined ? [] : [limit("tray places", { places: 1 }, traysStarted, trays.places)]),
      ...products.flatMap(({ name, maxUnits }, index) =>
        maxUnits === undefined
          ? []
          : [limit(`most units of ${name}`, { [`most ${index}`]: 1 }, unitsOf[index]!, maxUnits)],
      ),
    ],
  };
}
