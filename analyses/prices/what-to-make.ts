import type { Analysis, AnswerFront, CannotTell, Missing, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import type { CannotTell as CostCannotTell } from "../../src/costing/cannot-tell.ts";
import { makeProduct } from "../../src/costing/products/make-product.ts";
import {
  bestProductMix,
  type MakeInput,
  type MakeLimit,
  type MakePlan,
  type MakeProduct,
  type Range,
} from "../../src/costing/products/product-mix.ts";
import { trayStartsInMonth } from "../../src/costing/trays/book-rates.ts";
import type { FixedMonth } from "../../src/costing/trays/fixed-month.ts";
import { trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { counted } from "../../src/records/counted.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookDryingRatio } from "../costs/book-drying-ratio.ts";
import { type BookPrices, bookPrices, pricesMissing } from "../costs/book-prices.ts";
import { productName } from "../costs/product-name.ts";
import { fixedTable, limitTable, type MonthPlan, mixTable, monthTable, profitOf } from "./make-tables.ts";
import { monthYield } from "./month-yield.ts";

/** Why there is no plan for a month, and what of the sheets it waits for. */
interface NoPlan extends CostCannotTell {
  need: string;
}

const weights = "good trays with their weights";
const canBeMade = "products that can be made of what grows";
const readCosts = "cost lines that can be read";
const no = (reason: string, need: string): NoPlan => ({ kind: "cannot-tell", reason, need });

/** Products with a price; those without one by name and reason. */
function makeable(prices: BookPrices): { products: MakeProduct[]; without: string[] } {
  const products: MakeProduct[] = [];
  const without: string[] = [];
  for (const { product, priced } of prices.list) {
    const made = priced.kind === "priced" ? makeProduct(priced) : priced;
    if (made.kind === "make") products.push(made.product);
    else without.push(`${productName(product)} (${made.reason})`);
  }
  return { products, without };
}

function monthPlan(trial: Trial, prices: BookPrices): MonthPlan | NoPlan {
  const { perTray, costs } = prices;
  const { settings } = trial;
  if (perTray === undefined) return no("no tray is finished", weights);
  const shelfDays = perTray.shelfDays ?? 0;
  if (!(shelfDays > 0) || !trial.trays.some(({ inoculatedOn }) => inoculatedOn !== undefined)) {
    return no("the trays have no dates, so how many a month the shelves take is not known", "dates on the trays");
  }
  const { products, without } = makeable(prices);
  if (products.length === 0) return no(`no product has a price: ${without.join("; ")}`, "a product with its price");
  const ratio = bookDryingRatio(trial);
  const weight =
    perTray.fresh === undefined || ratio === undefined ? (perTray.dried === undefined ? "fresh" : "dried") : "fresh";
  const grams = weight === "fresh" ? perTray.fresh : perTray.dried;
  if (grams === undefined) return no("no good tray has a weight", weights);
  const usable = products.filter(({ grams: of }) => weight === "fresh" || of.fresh === 0);
  if (usable.length === 0) return no("no product can be made of what was weighed", canBeMade);
  const [toHarvest, dried] = [trayCostParts(costs, "variable", "fresh"), trayCostParts(costs, "variable", "dried")];
  if (toHarvest.kind === "cannot-tell") return no(toHarvest.reason, readCosts);
  if (dried.kind === "cannot-tell") return no(dried.reason, readCosts);
  const starts = trayStartsInMonth(settings.shelfPlaces, shelfDays);
  const yields = monthYield(trial, weight, grams, starts);
  const none: Range = { low: 0, mid: 0, high: 0 };
  // where nothing was weighed fresh, the plan counts in dried grams and drying is part of what a tray costs
  const dryingPerTray = weight === "dried" ? dried.perGram * grams : 0;
  return {
    kind: "month",
    input: {
      products: usable,
      freshGrams: none,
      driedGrams: 0,
      dryingRatio: weight === "fresh" ? (ratio?.value ?? 1) : 1,
      dryingCostPerKgFresh: weight === "fresh" ? dried.dryingPerKgFresh : 0,
      labourHours: settings.labourHoursPerMonth,
      trays: {
        shelfPlaces: settings.shelfPlaces,
        startsPerPlace: starts / settings.shelfPlaces,
        freshGrams: yields.grams,
        cost: toHarvest.toHarvestPerStartedTray + dryingPerTray,
        hours: perTray.labourHours,
      },
    },
    yields,
    weight,
    shelfDays,
    without: [
      ...without,
      ...products.filter((one) => !usable.includes(one)).map(({ name }) => `${name} (nothing was weighed fresh)`),
    ],
  };
}

/** The plan for each end of the range of grams. */
function plansOf(input: MakeInput): Record<keyof Range, MakePlan> | CostCannotTell {
  const [low, mid, high] = [bestProductMix(input, "low"), bestProductMix(input, "mid"), bestProductMix(input, "high")];
  if (low.kind === "cannot-tell") return low;
  if (mid.kind === "cannot-tell") return mid;
  if (high.kind === "cannot-tell") return high;
  return { low, mid, high };
}

/** What one more of a limit is worth, where it is a place or an hour. */
const worthOf = ({ limit, shadowPrice }: MakeLimit): Sentence =>
  limit === "shelf places"
    ? ["shelf places (one more for a month is worth ", { value: shadowPrice, unit: "money" }, ")"]
    : [`${limit} (one more is worth `, { value: shadowPrice, unit: "money" }, ")"];

/** "limited by shelf places (one more for a month is worth €9.10) and how many can be sold of 2 products". */
function limitSentence({ limits }: MakePlan): Sentence {
  const binding = limits.filter(({ isBinding }) => isBinding).sort((a, b) => b.shadowPrice - a.shadowPrice);
  const capacity = binding.filter(({ limit }) => limit === "shelf places" || limit === "hours of work").map(worthOf);
  const demand = binding.filter(({ limit }) => limit.startsWith("most units of ")).length;
  const reasons: Sentence[] = [
    ...capacity,
    ...(demand === 0 ? [] : [[`how many can be sold of ${counted(demand, "product")}`]]),
  ];
  if (reasons.length === 0) return ["nothing in the book limits it"];
  return ["limited by ", ...reasons.flatMap((reason, index) => (index === 0 ? reason : [" and ", ...reason]))];
}

/** What the month earns in the three cases, after what is paid anyway where that is known. */
function moneyOf(plans: Record<keyof Range, MakePlan>, fixed: FixedMonth | undefined) {
  const of = (plan: MakePlan): number => profitOf(plan, fixed) ?? plan.contributionMargin;
  const label =
    fixed === undefined
      ? "contribution margin of the month, before rent and overhead"
      : "profit of the month, before pay for your own time";
  return { value: of(plans.mid), low: of(plans.low), high: of(plans.high), label };
}

type Money = ReturnType<typeof moneyOf>;

function answerSentence(plan: MakePlan, money: Money, fixed: FixedMonth | undefined, hasRange: boolean): Sentence {
  const made = plan.units.filter(({ units }) => units > 0);
  if (made.length === 0) {
    return ["At today's prices nothing is worth making: no product brings more than what grows with making it."];
  }
  const isFilled = plan.limits.some(({ limit, isBinding }) => limit === "shelf places" && isBinding);
  return [
    `In a month${isFilled ? " with the shelves kept filled," : ""} ${money.value < 0 ? "least is lost" : "most is earned"} by making ${made.map(({ name, units }) => `${units} of ${name}`).join("; ")}, from ${plan.traysStarted} trays: `,
    { value: money.value, unit: "money" },
    ...(hasRange ? [" (", { from: money.low, to: money.high, unit: "money" } as const, ")"] : []),
    fixed === undefined
      ? " before rent, overhead and pay for your own time; "
      : " after rent and overhead, before pay for your own time; ",
    ...limitSentence(plan),
    ".",
    ...(plan.notSearched > 0
      ? [
          " This is the best mix found so far: many mixes are nearly alike, and none can bring more than ",
          { value: plan.notSearched, unit: "money" } as const,
          " more.",
        ]
      : []),
  ];
}

function methodOf(trial: Trial, { yields, shelfDays, input }: MonthPlan): Sentence[] {
  const { shelfPlaces, startsPerPlace } = input.trays!;
  return [
    [
      `Integer linear programming over products, drying and trays to start (branch and bound). ${Math.floor(shelfPlaces * startsPerPlace + 1e-9)} trays can be started in a month of average length: ${trial.settings.shelfPlaces} places, each held `,
      { value: shelfDays, unit: "days" },
      " on average, lost trays included.",
    ],
    [
      yields.from === "none"
        ? "There are too few finished trays for a range of what a month gives."
        : `What a month's trays would give: prediction interval of their mean, from the spread between ${yields.units} ${yields.from}.`,
    ],
  ];
}

function caveatsOf({ input, without }: MonthPlan): Sentence[] {
  const unlimited = input.products.filter(({ maxUnits }) => maxUnits === undefined).map(({ name }) => name);
  return [
    [
      "A steady month: trays started are counted with the grams trays like them give, and there is no stock to begin with.",
    ],
    ...(unlimited.length === 0
      ? []
      : [
          [
            `No limit is stated for ${unlimited.join("; ")}, so the plan takes it that any number can be sold. Type max_units_month.`,
          ],
        ]),
    ...(without.length === 0 ? [] : [[`Left out: ${without.join("; ")}.`]]),
  ];
}

const cannot = (reason: string, missing: Missing): CannotTell =>
  noAnswer([`Cannot tell what to make: ${reason}.`], [`Add to the sheets: ${missing.need}.`], { missing });

/** What the front page shows: the month's money, and how often each product is in it. */
function frontOf(plan: MakePlan, money: Money, hasRange: boolean): AnswerFront {
  const made = plan.units.filter(({ units }) => units > 0).sort((a, b) => b.earns - a.earns);
  const total = made.reduce((sum, { earns }) => sum + earns, 0);
  return {
    short: [
      made.length === 0
        ? "At today's prices nothing is worth making."
        : `A month's ${plan.traysStarted} trays ${money.value < 0 ? "lose least made" : "are best made"} into ${made.length === 1 ? made[0]!.name : `${made.length} products`}.`,
    ],
    figure: {
      label: "a month, before your time",
      value: money.value,
      unit: "money",
      ...(hasRange ? { from: Math.min(money.low, money.value), to: Math.max(money.high, money.value) } : {}),
    },
    strip: {
      kind: "shares",
      parts: made.slice(0, 5).map(({ name, earns }) => ({ name, value: total > 0 ? earns / total : 0 })),
    },
  };
}

function run(trial: Trial): Outcome {
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell")
    return cannot(prices.reason, pricesMissing(trial, "what you sell, in products.csv"));
  const month = monthPlan(trial, prices);
  if (month.kind === "cannot-tell") return cannot(month.reason, { kind: "record", need: month.need });
  const plans = plansOf(month.input);
  if ("kind" in plans) return cannot(plans.reason, { kind: "record", need: canBeMade });
  const { low, mid, high } = plans;
  const { yields } = month;
  const sameMix = mid.units.every(
    ({ units }, index) => low.units[index]!.units === units && high.units[index]!.units === units,
  );
  const hasRange = yields.from !== "none";
  const money = moneyOf(plans, prices.fixed);
  const fixedLines = fixedTable(prices.fixed);
  return {
    kind: "answer",
    ...frontOf(mid, money, hasRange),
    sentence: answerSentence(mid, money, prices.fixed, hasRange),
    certainty: !hasRange ? "open" : sameMix && mid.notSearched === 0 ? "settled" : "leaning",
    estimates: [
      {
        label: money.label,
        value: money.value,
        ...(hasRange ? { low: money.low, high: money.high } : {}),
        level: trial.settings.intervalLevel,
        unit: "money",
        n: yields.units,
        nUnit: yields.from === "cooks" ? "cooks" : "trays",
        method: "integer linear programming at both ends of what a month's trays would give",
      },
    ],
    tables: [
      mixTable(plans),
      monthTable(plans, month, prices.fixed),
      ...(fixedLines === undefined ? [] : [fixedLines]),
      limitTable(mid, trial.settings),
    ],
    charts: [],
    excluded: [],
    method: methodOf(trial, month),
    caveats: caveatsOf(month),
  };
}

/** The mix of products that earns most in a month, and what one more place, hour or gram is worth. */
export const whatToMakeAnalysis: Analysis = {
  id: "what-to-make",
  name: "What to make",
  question: "What should a month's trays be made into, and what limits the month?",
  needs: ["tray_id", "outcome", "inoculated_on", "fresh_g", "dry_g"],
  assumes: [
    "shelves are filled again as soon as a place is free",
    "what products.csv says can be sold is sold at today's prices",
    "another month's trays would be like these",
  ],
  topic: "money",
  headline: false,
  run,
};
