import type { CostKind, CostLine } from "../../records/cost-line.ts";
import { known } from "../../records/known.ts";
import { costMeasure, splitUnit } from "./cost-amount.ts";
import { costBase } from "./cost-words.ts";
import { baseNamed } from "./read-cost-base.ts";
import type { CostColumn, CostRow } from "./read-measured.ts";

type Wear = Pick<CostLine, "uses" | "lifeYears" | "usesPerYear" | "salvage" | "breakage">;

/** "500 loads" as a life are so many uses. */
function settleUsesOfLife(row: CostRow, cupMillilitres: number): void {
  const { number, unit } = splitUnit(row.text("life_years"));
  const isUses = costMeasure(unit, cupMillilitres)?.unit === "each" || baseNamed(unit)?.per === "load";
  if (isUses && !row.has("uses")) row.take({ uses: number, life_years: "" });
}

/**
 * Reads how long a reusable lasts, what it recovers and how often it breaks. Numbers that contradict one another are
 * kept in what comes back, so that the most the line can cost is known, and make the row fail.
 */
export function readWear(
  row: CostRow,
  kind: CostKind | undefined,
  packPrice: number | undefined,
  cupMillilitres: number,
): Wear {
  settleUsesOfLife(row, cupMillilitres);
  // "40 uses", "5 years", "18 months"
  const above = (key: CostColumn, what: string): number | undefined => {
    if (!row.has(key)) return undefined;
    const { number, unit } = splitUnit(row.text(key));
    const measure = costMeasure(unit, cupMillilitres);
    const isLife = key === "life_years" && measure?.unit === "month";
    const isNamed = isLife || (key !== "life_years" && measure?.unit === "each");
    const typed = row.quantity(key, isNamed ? number : row.text(key), "number");
    return row.within(
      key,
      isLife && typed !== undefined ? (typed * measure.factor) / 12 : typed,
      { least: 0, above: true },
      what,
    );
  };
  const uses = above("uses", "the number of uses");
  const lifeYears = above("life_years", "the life in years");
  const usesPerYear = above("uses_per_year", "the uses a year");
  if (
    kind === "reusable" &&
    uses === undefined &&
    (lifeYears === undefined || (usesPerYear === undefined && costBase.find(row.text("per"))?.answer !== "month")) &&
    !row.failed
  ) {
    row.say("uses", {
      rule: "missing-life",
      reason: "a reusable needs the uses it lasts, or its life in years and the uses a year",
      expected: "uses, or life_years and uses_per_year",
      action: "Type one or the other",
    });
  }
  const salvage = row.has("salvage") ? row.money("salvage", "the money recovered") : undefined;
  if ((salvage ?? 0) > (packPrice ?? Number.POSITIVE_INFINITY)) {
    row.say("salvage", {
      rule: "salvage-above-price",
      reason: "what is recovered at the end is more than the thing cost",
      expected: `money recovered, at most the price of ${packPrice}`,
      action: "Correct the salvage or the price",
    });
  }
  const breakage = row.has("breakage_pct")
    ? row.share("breakage_pct", { least: 0, most: 1 }, "the share that breaks")
    : undefined;
  if (breakage === 1) {
    row.say("breakage_pct", {
      rule: "breakage-of-all",
      reason: "a thing that always breaks at its first use is not reusable",
      expected: "a share below 100 %, or the kind consumable",
      action: "Correct the share, or make the line a consumable",
    });
  }
  return known({ uses, lifeYears, usesPerYear, salvage, breakage });
}
