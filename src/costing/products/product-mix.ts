import { requireFinite, requireNotNegative, requirePositive } from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { solveSplit, solveWhole, type WholeProgramme } from "./whole-programme.ts";

/** An amount not known exactly. */
export interface Range {
  low: number;
  mid: number;
  high: number;
}

/** A product as the plan sees it. */
export interface MakeProduct {
  name: string;
  /** grams of fresh and of dried for one unit sold; both 0 for one that is not made of mushrooms */
  grams: { fresh: number; dried: number };
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
  /**
   * trays that may still be started: shelf places, how often a place can be filled in the month, what one tray gives, costs
   * and takes; absent: none
   */
  trays?: { shelfPlaces: number; startsPerPlace: number; freshGrams: Range; cost: number; hours: number };
}

/** One limit of the plan. */
export interface MakeLimit {
  limit: "fresh grams" | "dried grams" | "hours of work" | "shelf places" | `most units of ${string}`;
  used: number;
  available: number;
  /** what one more would bring in the month if units and trays could be split: the marginal value */
  shadowPrice: number;
  /** whether it holds the plan back: nothing more that needs it fits, and more of it would bring something */
  isBinding: boolean;
}

/** The mix that brings most. */
export interface MakePlan {
  kind: "plan";
  units: { name: string; units: number; grams: number; earns: number }[];
  traysStarted: number;
  freshDried: number;
  hoursUsed: number;
  /** what units sold bring after fees, packing and sending */
  earned: number;
  /** what trays started and drying cost */
  variableCost: number;
  /** earned less what varies: what is there for fixed cost and profit */
  contributionMargin: number;
  limits: MakeLimit[];
  /** how much more another mix could bring at most where the search was ended early; 0 where it ended by itself */
  notSearched: number;
}

type Case = keyof Range;

function requireRange(name: string, range: Range): void {
  for (const key of ["low", "mid", "high"] as const) requireNotNegative("bestProductMix", `${name}.${key}`, range[key]);
  if (!(range.low <= range.mid && range.mid <= range.high)) {
    throw new RangeError(
      `bestProductMix: ${name} must rise from low to high; received ${range.low}, ${range.mid}, ${range.high}`,
    );
  }
}

function requireInput({ products, freshGrams, driedGrams, dryingRatio, ...rest }: MakeInput): void {
  for (const { name, grams, earns, hours, maxUnits } of products) {
    requireNotNegative("bestProductMix", `grams.fresh of ${name}`, grams.fresh);
    requireNotNegative("bestProductMix", `grams.dried of ${name}`, grams.dried);
    requireFinite("bestProductMix", `earns of ${name}`, earns);
    requireNotNegative("bestProductMix", `hours of ${name}`, hours);
    if (maxUnits !== undefined) requireNotNegative("bestProductMix", `maxUnits of ${name}`, maxUnits);
    if (maxUnits === undefined && grams.fresh + grams.dried + hours === 0) {
      throw new RangeError(`bestProductMix: ${name} needs a limit, grams or hours; received none`);
    }
  }
  requireRange("freshGrams", freshGrams);
  requireNotNegative("bestProductMix", "driedGrams", driedGrams);
  requirePositive("bestProductMix", "dryingRatio", dryingRatio);
  requireNotNegative("bestProductMix", "dryingCostPerKgFresh", rest.dryingCostPerKgFresh);
  requireNotNegative("bestProductMix", "labourHours", rest.labourHours);
  if (rest.trays === undefined) return;
  requireRange("trays.freshGrams", rest.trays.freshGrams);
  for (const key of ["shelfPlaces", "startsPerPlace", "cost", "hours"] as const) {
    requireNotNegative("bestProductMix", `trays.${key}`, rest.trays[key]);
  }
}

/** Whole trays that can be started in the month. */
const startsOf = ({ trays }: MakeInput): number =>
  trays === undefined ? 0 : Math.floor(trays.shelfPlaces * trays.startsPerPlace + 1e-9);

/** The month as a programme: grams in kilograms, so that coefficients are of like size. */
function programmeOf(input: MakeInput, at: Case): WholeProgramme {
  const { products, trays } = input;
  const limits: WholeProgramme["limits"] = {
    fresh: input.freshGrams[at] / 1000,
    dried: input.driedGrams / 1000,
    hours: input.labourHours,
    starts: startsOf(input),
  };
  const variables: WholeProgramme["variables"] = {
    drying: { money: -input.dryingCostPerKgFresh, fresh: 1, dried: -1 / input.dryingRatio },
  };
  const whole: string[] = [];
  if (trays !== undefined) {
    variables.trays = { money: -trays.cost, fresh: -trays.freshGrams[at] / 1000, hours: trays.hours, starts: 1 };
    whole.push("trays");
  }
  products.forEach(({ grams, earns, hours, maxUnits }, index) => {
    const name = `units ${index}`;
    variables[name] = {
      money: earns,
      fresh: grams.fresh / 1000,
      dried: grams.dried / 1000,
      hours,
      [`most ${index}`]: 1,
    };
    if (maxUnits !== undefined) limits[`most ${index}`] = Math.floor(maxUnits);
    whole.push(name);
  });
  return { variables, objective: "money", limits, whole };
}

/** What a limit's coefficient is, how much more of it is tried, and how a figure of it is shown. */
interface LimitShown {
  name: MakeLimit["limit"];
  key: string;
  /** one more of what is shown, in the programme's unit */
  step: number;
  used: number;
  available: number;
  /** the least that anything more would take */
  leastMore: number;
}

/** The least that a further unit takes of what limits a month; a tray more is no good where its grams make none. */
function leastOfAUnit({ products, trays, dryingRatio }: MakeInput, at: Case) {
  const least = (of: (product: MakeProduct) => number): number =>
    Math.min(...products.map(of).filter((value) => value > 0), Number.POSITIVE_INFINITY);
  const asPicked = ({ grams }: MakeProduct): number => grams.fresh + grams.dried * dryingRatio;
  const traysOf = (one: MakeProduct): number => (trays === undefined ? 0 : asPicked(one) / trays.freshGrams[at]);
  return {
    fresh: least(asPicked),
    dried: least(({ grams }) => grams.dried),
    hours: least((one) => one.hours + (trays?.hours ? traysOf(one) * trays.hours : 0)),
    trays: Math.max(1, least(traysOf)),
  };
}

function limitsShown(
  input: MakeInput,
  plan: Pick<MakePlan, "units" | "traysStarted" | "hoursUsed">,
  grams: Grams,
  at: Case,
): LimitShown[] {
  const { products, trays } = input;
  const leastMore = leastOfAUnit(input, at);
  return [
    ...(["fresh", "dried"] as const).map(
      (form): LimitShown => ({
        name: `${form} grams`,
        key: form,
        step: 1 / 1000,
        used: grams[`${form}Used`],
        available: grams[form],
        leastMore: leastMore[form],
      }),
    ),
    {
      name: "hours of work",
      key: "hours",
      step: 1,
      used: plan.hoursUsed,
      available: input.labourHours,
      leastMore: leastMore.hours,
    },
    ...(trays === undefined || trays.startsPerPlace === 0
      ? []
      : [
          {
            name: "shelf places" as const,
            key: "starts",
            step: trays.startsPerPlace,
            used: plan.traysStarted / trays.startsPerPlace,
            available: trays.shelfPlaces,
            leastMore: leastMore.trays / trays.startsPerPlace,
          },
        ]),
    ...products.flatMap(({ name, maxUnits }, index): LimitShown[] =>
      maxUnits === undefined
        ? []
        : [
            {
              name: `most units of ${name}`,
              key: `most ${index}`,
              step: 1,
              used: plan.units[index]!.units,
              available: maxUnits,
              leastMore: 1,
            },
          ],
    ),
  ];
}

interface Grams {
  fresh: number;
  freshUsed: number;
  dried: number;
  driedUsed: number;
}

/** Branches after which the best mix found is given. */
const mostBranches = 1000;

/**
 * The mix of products, drying and trays to start that brings the largest contribution margin in a steady month, in whole
 * units and trays. A shadow price is of one more hour, gram or unit, and of one more shelf place for the month.
 * @param at which end of the ranges of grams to plan for
 * @returns the plan with its limits; cannot-tell when there are no products
 * @throws RangeError if a number lies outside its range; Error if nothing limits what can be made
 * @source linear and mixed-integer programming; a shadow price is the optimum with one more less the optimum without
 * @example bestProductMix(input, "mid").units.map(({ units }) => units) // [1, 2]
 */
export function bestProductMix(input: MakeInput, at: Case = "mid"): MakePlan | CannotTell {
  requireInput(input);
  const { products, trays } = input;
  if (products.length === 0) return cannotTell("there are no products");
  const programme = programmeOf(input, at);
  const best = solveWhole(programme, mostBranches);
  const split = solveSplit(programme)!;
  const units = products.map(({ name, grams, earns }, index) => {
    const made = Math.round(best.of(`units ${index}`));
    return { name, units: made, grams: (grams.fresh + grams.dried) * made, earns: earns * made };
  });
  const traysStarted = trays === undefined ? 0 : Math.round(best.of("trays"));
  const freshDried = best.of("drying") * 1000;
  const inProducts = (form: "fresh" | "dried"): number =>
    products.reduce((sum, { grams }, index) => sum + grams[form] * units[index]!.units, 0);
  const grams: Grams = {
    fresh: input.freshGrams[at] + traysStarted * (trays?.freshGrams[at] ?? 0),
    freshUsed: inProducts("fresh") + freshDried,
    dried: input.driedGrams + freshDried / input.dryingRatio,
    driedUsed: inProducts("dried"),
  };
  const hoursUsed =
    traysStarted * (trays?.hours ?? 0) +
    products.reduce((sum, { hours }, index) => sum + hours * units[index]!.units, 0);
  const earned = units.reduce((sum, { earns }) => sum + earns, 0);
  const variableCost = (freshDried / 1000) * input.dryingCostPerKgFresh + traysStarted * (trays?.cost ?? 0);
  const limits = limitsShown(input, { units, traysStarted, hoursUsed }, grams, at).map(
    ({ name, key, step, used, available, leastMore }): MakeLimit => {
      const more = solveSplit({ ...programme, limits: { ...programme.limits, [key]: programme.limits[key]! + step } })!;
      const gained = more.value - split.value;
      const shadowPrice = gained > 1e-9 * Math.max(1, Math.abs(split.value)) ? gained : 0; // less is rounding
      return {
        limit: name,
        used,
        available,
        shadowPrice,
        isBinding: shadowPrice > 1e-6 && available - used < leastMore - 1e-9,
      };
    },
  );
  return {
    kind: "plan",
    units,
    traysStarted,
    freshDried,
    hoursUsed,
    earned,
    variableCost,
    contributionMargin: earned - variableCost,
    limits,
    notSearched: Math.max(0, best.bound - best.value),
  };
}
