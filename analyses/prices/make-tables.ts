import type { Table } from "../../src/analysis.ts";
import type { MakeInput, MakeLimit, MakePlan, Range } from "../../src/costing/products/product-mix.ts";
import type { MonthYield } from "./month-yield.ts";

/** A month to plan, and what the plan rests on. */
export interface MonthPlan {
  kind: "month";
  input: MakeInput;
  yields: MonthYield;
  /** which weight of a tray the plan counts in; "dried" where nothing was weighed fresh */
  weight: "fresh" | "dried";
  shelfDays: number;
  month: string;
  without: string[];
}

/** Units of each product in a poor, a usual and a good month. */
export function mixTable(plans: Record<keyof Range, MakePlan>): Table {
  const { low, mid, high } = plans;
  return {
    caption: "What to make in a month",
    columns: [
      { label: "Product" },
      { label: "in a poor month", unit: "units" },
      { label: "in a usual month", unit: "units" },
      { label: "in a good month", unit: "units" },
      { label: "grams it takes, usual month", unit: "g" },
      { label: "leaves, usual month", unit: "money" },
    ],
    rows: mid.units.map(({ name, units, grams, earns }, index) => [
      name,
      low.units[index]!.units,
      units,
      high.units[index]!.units,
      grams,
      earns,
    ]),
    note: "Leaves: after fees, packing and sending; growing and drying are taken off below. Poor and good: the ends of what a month's trays would give, by the book's own spread.",
  };
}

/** Trays, grams, hours and money of the month in three cases. */
export function monthTable(
  plans: Record<keyof Range, MakePlan>,
  { input, weight }: MonthPlan,
  fixed: number | undefined,
): Table {
  const cases = [
    ["poor", "low"],
    ["usual", "mid"],
    ["good", "high"],
  ] as const;
  return {
    caption: "The month in three cases",
    columns: [
      { label: "Month" },
      { label: `${weight} grams of a started tray`, unit: "g" },
      { label: "trays to start", unit: "trays" },
      { label: "fresh to dry", unit: "g" },
      { label: "hours of work", unit: "hours" },
      { label: "leaves", unit: "money" },
      { label: "leaves after rent and overhead", unit: "money" },
    ],
    rows: cases.map(([name, at]) => {
      const plan = plans[at];
      return [
        name,
        input.trays!.freshGrams[at],
        plan.traysStarted,
        weight === "fresh" ? plan.freshDried : null,
        plan.hoursUsed,
        plan.contributionMargin,
        fixed === undefined ? null : plan.contributionMargin - fixed,
      ];
    }),
    note: "Leaves: income less what grows with what is made. Your own time is not paid from it: it is counted in hours, and limited.",
  };
}

/** Whether a limit holds the month back. */
export const isBinding = ({ shadowPrice }: MakeLimit): boolean => shadowPrice > 1e-6;

/** Every limit, how far it is used and what one more of it is worth. */
export function limitTable({ limits }: MakePlan): Table {
  return {
    caption: "What holds the month back, and what one more of it is worth",
    columns: [
      { label: "Limit" },
      { label: "used", unit: "factor" },
      { label: "there is", unit: "factor" },
      { label: "one more is worth", unit: "money" },
      { label: "in whole units and trays", unit: "money" },
    ],
    rows: limits.map(({ limit, used, available, shadowPrice, gainInWholeUnits }) => [
      limit,
      used,
      available,
      shadowPrice,
      gainInWholeUnits,
    ]),
    note: "Of a usual month. The fourth column is the value of one more if units and trays could be split; the fifth with whole ones, where one gram more often makes no unit. 0 where the limit is not reached.",
  };
}
