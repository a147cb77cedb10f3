import type { Analysis, CannotTell, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import type { CannotTell as CostCannotTell } from "../../src/costing/cannot-tell.ts";
import { makeProduct } from "../../src/costing/products/make-product.ts";
import {
  bestProductMix,
  type MakeInput,
  type MakePlan,
  type MakeProduct,
  type Range,
} from "../../src/costing/products/product-mix.ts";
import { trayStartsInMonth } from "../../src/costing/trays/book-rates.ts";
import { trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type BookPrices, bookPrices } from "../costs/book-prices.ts";
import { productName } from "../costs/product-name.ts";
import { isBinding, limitTable, type MonthPlan, mixTable, monthTable } from "./make-tables.ts";
import { monthYield } from "./month-yield.ts";
import { bookDryingRatio } from "./net-offers.ts";

const no = (reason: string): CostCannotTell => ({ kind: "cannot-tell", reason });

/** Products with a price; those without one by name and reason. */
function makeable(prices: BookPrices): { products: MakeProduct[]; without: string[] } {
  const products: MakeProduct[] = [];
  const without: string[] = [];
  for (const { product, priced } of prices.list) {
    const made = priced.kind === "priced" ? makeProduct(priced, prices.rates) : priced;
    if (made.kind === "make") products.push(made.product);
    else without.push(`${productName(product)} (${made.reason})`);
  }
  return { products, without };
}

function monthPlan(trial: Trial, prices: BookPrices): MonthPlan | CostCannotTell {
  const { perTray, costs } = prices;
  const { settings } = trial;
  if (perTray === undefined) return no("no tray is finished");
  const shelfDays = perTray.shelfDays ?? 0;
  const month = trial.trays
    .flatMap(({ inoculatedOn }) => inoculatedOn?.slice(0, 7) ?? [])
    .sort()
    .at(-1);
  if (!(shelfDays > 0) || month === undefined) {
    return no("the trays have no dates, so how many a month the shelves take is not known");
  }
  const { products, without } = makeable(prices);
  if (products.length === 0) return no(`no product has a price: ${without.join("; ")}`);
  const ratio = bookDryingRatio(trial);
  const weight =
    perTray.fresh === undefined || ratio === undefined ? (perTray.dried === undefined ? "fresh" : "dried") : "fresh";
  const grams = weight === "fresh" ? perTray.fresh : perTray.dried;
  if (grams === undefined) return no("no good tray has a weight");
  const usable = products.filter(({ madeOf }) => weight === "fresh" || madeOf === "dried");
  if (usable.length === 0) return no("no product can be made of what was weighed");
  const [toHarvest, dried] = [trayCostParts(costs, "variable", "fresh"), trayCostParts(costs, "variable", "dried")];
  if (toHarvest.kind === "cannot-tell") return toHarvest;
  if (dried.kind === "cannot-tell") return dried;
  const starts = trayStartsInMonth(settings.shelfPlaces, shelfDays, month);
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
        places: starts,
        freshGrams: yields.grams,
        cost: toHarvest.toHarvestPerStartedTray + dryingPerTray,
        hours: perTray.labourHours,
      },
    },
    yields,
    weight,
    shelfDays,
    month,
    without: [
      ...without,
      ...products.filter((one) => !usable.includes(one)).map(({ name }) => `${name} (nothing was weighed fresh)`),
    ],
  };
}

/** The plan for each end of the range of grams; the solver's own trouble is told, not thrown. */
function plansOf(input: MakeInput): Record<keyof Range, MakePlan> | CostCannotTell {
  try {
    const [low, mid, high] = [
      bestProductMix(input, "low"),
      bestProductMix(input, "mid"),
      bestProductMix(input, "high"),
    ];
    if (low.kind === "cannot-tell") return low;
    if (mid.kind === "cannot-tell") return mid;
    if (high.kind === "cannot-tell") return high;
    return { low, mid, high };
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    return no(`no plan could be worked out (${error.message})`);
  }
}

/** "held back by tray places (one more is worth €9.10); one more gram of fresh is worth €0.04". */
function worthSentence({ limits }: MakePlan): Sentence {
  const held = limits.filter(isBinding).sort((a, b) => b.shadowPrice - a.shadowPrice);
  const holding = held.flatMap(({ limit, shadowPrice }): Sentence[] =>
    limit === "tray places" || limit === "hours of work"
      ? [[`${limit} (one more is worth `, { value: shadowPrice, unit: "money" }, ")"]]
      : [],
  );
  const demand = held.filter(({ limit }) => limit.startsWith("most units of ")).length;
  const reasons: Sentence[] = [
    ...holding,
    ...(demand === 0 ? [] : [[`how many can be sold of ${demand} ${demand === 1 ? "product" : "products"}`]]),
  ];
  // grams can always be had by starting another tray, so they are no limit, but what one is worth says what a gain is worth
  const grams = held.flatMap(({ limit, shadowPrice }): Sentence[] =>
    limit === "fresh grams" || limit === "dried grams"
      ? [
          [
            `; one more gram of ${limit === "fresh grams" ? "fresh" : "dried"} is worth `,
            { value: shadowPrice, unit: "money" },
          ],
        ]
      : [],
  );
  return [
    reasons.length === 0 ? "nothing in the book holds it back" : "held back by ",
    ...reasons.flatMap((reason, index) => (index === 0 ? reason : [" and ", ...reason])),
    ...grams.flat(),
  ];
}

function run(trial: Trial): Outcome {
  const cannot = (reason: string): CannotTell =>
    noAnswer(
      [`Cannot tell what to make: ${reason}.`],
      [
        "Fill in costs.csv and products.csv, with dates on the trays, and shelf_places and labour_hours_per_month in settings.csv.",
      ],
    );
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") return cannot(prices.reason);
  const month = monthPlan(trial, prices);
  if (month.kind === "cannot-tell") return cannot(month.reason);
  const plans = plansOf(month.input);
  if ("kind" in plans) return cannot(plans.reason);
  const { low, mid, high } = plans;
  const made = mid.units.filter(({ units }) => units > 0);
  const sameMix = mid.units.every(
    ({ units }, index) => low.units[index]!.units === units && high.units[index]!.units === units,
  );
  const { yields, shelfDays, input, without } = month;
  const unlimited = input.products.filter(({ maxUnits }) => maxUnits === undefined).map(({ name }) => name);
  const leaves: Sentence = [
    { value: mid.contributionMargin, unit: "money" },
    ...(yields.from === "none"
      ? []
      : [" (", { from: low.contributionMargin, to: high.contributionMargin, unit: "money" } as const, ")"]),
  ];
  return {
    kind: "answer",
    sentence:
      made.length === 0
        ? ["At today's prices nothing is worth making: no product brings more than what grows with making it."]
        : [
            `In a month with the shelves kept filled, most is left by making ${made.map(({ name, units }) => `${units} of ${name}`).join("; ")}, from ${mid.traysStarted} trays: `,
            ...leaves,
            " before rent, overhead and pay for your own time; ",
            ...worthSentence(mid),
            ".",
          ],
    certainty: yields.from === "none" ? "open" : sameMix ? "settled" : "leaning",
    estimates: [
      {
        label: "what the month leaves before rent, overhead and pay for your own time",
        value: mid.contributionMargin,
        ...(yields.from === "none" ? {} : { low: low.contributionMargin, high: high.contributionMargin }),
        level: trial.settings.intervalLevel,
        unit: "money",
        n: yields.units,
        nUnit: yields.from === "cooks" ? "cooks" : "trays",
        method: "integer linear programming at both ends of what a month's trays would give",
      },
    ],
    tables: [mixTable(plans), monthTable(plans, month, prices.fixedWithoutOwner), limitTable(mid)],
    charts: [],
    excluded: [],
    method: [
      [
        `Integer linear programming over products, drying and trays to start. ${Math.floor(input.trays!.places)} trays can be started in a month as long as ${month.month}: ${trial.settings.shelfPlaces} places, each held `,
        { value: shelfDays, unit: "days" },
        " on average, lost trays included.",
      ],
      [
        yields.from === "none"
          ? "There are too few finished trays for a range of what a month gives."
          : `What a month's trays would give: prediction interval of their mean, from the spread between ${yields.units} ${yields.from}.`,
      ],
    ],
    caveats: [
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
    ],
  };
}

/** The mix of products that leaves most in a month, and what one more place, hour or gram is worth. */
export const whatToMakeAnalysis: Analysis = {
  id: "what-to-make",
  name: "What to make",
  question: "What should a month's trays be made into, and what holds the month back?",
  needs: ["tray_id", "outcome", "inoculated_on", "fresh_g", "dry_g"],
  experimentalUnit: "cook",
  assumes: [
    "shelves are filled again as soon as a place is free",
    "what products.csv says can be sold is sold at today's prices",
    "another month's trays would be like these",
  ],
  topic: "money",
  headline: false,
  run,
};
