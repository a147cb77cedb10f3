import type { Table } from "../../src/analysis.ts";
import type { MakeInput, MakePlan, Range } from "../../src/costing/products/product-mix.ts";
import type { FixedMonth } from "../../src/costing/trays/fixed-month.ts";
import type { Settings } from "../../src/records/setting.ts";
import { unitNamed } from "../../src/records/words/units.ts";
import type { MonthYield } from "./month-yield.ts";

/** A month to plan, and what the plan rests on. */
export interface MonthPlan {
  kind: "month";
  input: MakeInput;
  yields: MonthYield;
  /** which weight of a tray the plan counts in; "dried" where nothing was weighed fresh */
  weight: "fresh" | "dried";
  shelfDays: number;
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
      { label: "takes, usual month", unit: "g" },
      { label: "brings, usual month", unit: "money" },
    ],
    rows: mid.units.map(({ name, units, grams, earns }, index) => [
      name,
      low.units[index]!.units,
      units,
      high.units[index]!.units,
      grams,
      earns,
    ]),
    note: "Brings: after fees, packing and sending; growing and drying are taken off below. Poor and good: the ends of what a month's trays would give, by the book's own spread.",
  };
}

/** What a month earns: what units bring, less what varies with what is made, less what is paid anyway. */
export function profitOf(plan: MakePlan, fixed: FixedMonth | undefined): number | undefined {
  return fixed === undefined ? undefined : plan.contributionMargin - fixed.withoutOwnerLabour;
}

/** Trays, grams, hours and money of the month in three cases. */
export function monthTable(
  plans: Record<keyof Range, MakePlan>,
  { input, weight }: MonthPlan,
  fixed: FixedMonth | undefined,
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
      { label: `${weight} weight of a started tray`, unit: "g" },
      { label: "trays to start", unit: "trays" },
      { label: "fresh to dry", unit: "g" },
      { label: "hours of work", unit: "hours" },
      { label: "units bring", unit: "money" },
      { label: "growing and drying", unit: "money" },
      { label: "contribution margin", unit: "money" },
      { label: "paid anyway", unit: "money" },
      { label: "profit before your own time", unit: "money" },
    ],
    rows: cases.map(([name, at]) => {
      const plan = plans[at];
      return [
        name,
        input.trays!.freshGrams[at],
        plan.traysStarted,
        weight === "fresh" ? plan.freshDried : null,
        plan.hoursUsed,
        plan.earned,
        plan.variableCost,
        plan.contributionMargin,
        fixed?.withoutOwnerLabour ?? null,
        profitOf(plan, fixed) ?? null,
      ];
    }),
    note: "Units bring: price less fees, packing and sending. Growing and drying: what varies with the trays started. Your own time is not paid from it: it is counted in hours, and limited.",
  };
}

/** What a month costs whatever is made, line by line; undefined where nothing is. */
export function fixedTable(fixed: FixedMonth | undefined): Table | undefined {
  if (fixed === undefined || fixed.lines.length === 0) return undefined;
  return {
    caption: "What a month costs whatever is made",
    columns: [{ label: "Line" }, { label: "a month", unit: "money" }, { label: "counted" }],
    rows: [...fixed.lines.map(({ item, amount, basis }) => [item, amount, basis]), ["Together", fixed.total, ""]],
    totalRows: 1,
    note: "Rent and overhead per shelf day are counted for every place and day, used or not, at the prices in force now. Your own time is in it only where it is paid by the month.",
  };
}

/** Every limit, how far it is used and what one more of it is worth in the month. */
export function limitTable({ limits }: MakePlan, { displayUnits }: Pick<Settings, "displayUnits">): Table {
  const grams = displayUnits === "us" ? unitNamed("oz", "mass")!.factor : 1;
  return {
    caption: "What limits the month, and what one more of it is worth",
    columns: [
      { label: "Limit" },
      { label: "used", unit: "factor" },
      { label: "there is", unit: "factor" },
      { label: "one more is worth a month", unit: "money" },
      { label: "limits the month" },
    ],
    rows: limits.map(({ limit, used, available, shadowPrice, isBinding }) => {
      const one = limit.endsWith(" grams") ? grams : 1;
      const name = one === 1 ? limit : limit.replace("grams", "ounces");
      return [name, used / one, available / one, shadowPrice * one, isBinding ? "yes" : "no"];
    }),
    note: "Of a usual month. One more shelf place is one place for the whole month. What one more is worth is worked out as if units and trays could be split; 0 where the limit is not reached.",
  };
}
