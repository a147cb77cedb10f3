import { writeCsv } from "../../csv/write-csv.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";
import type { TrayDraft } from "../trays/tray-draft.ts";

/** Fresh weights of one tray in g that are all below this, and half of them below the second, may be ounces. Common practice, no source. */
const allBelow = 25;
const halfBelow = 15;
const fewest = 3;

/**
 * Says that all fresh weights of a sheet are a few grams, under a header that says grams: of ounces they would be usual.
 * They are used as stated. A line of columns.csv that states the unit settles it.
 */
export function allSmall(file: string, plans: ReadonlyArray<ColumnPlan>, drafts: ReadonlyArray<TrayDraft>): Issue[] {
  const plan = plans.find(({ field }) => field === "fresh_g");
  if (plan === undefined || plan.conventions.bareUnit !== "g" || plan.because.startsWith("pinned")) return [];
  const grams: number[] = [];
  for (const { flushes, freshGrams: own = 0, traysInPool } of drafts) {
    let sum = flushes.length === 0 ? own : 0;
    for (const { freshGrams = 0 } of flushes) sum += freshGrams;
    if (sum / traysInPool >= allBelow) return [];
    if (sum > 0) grams.push(sum / traysInPool);
  }
  const small = grams.filter((each) => each < halfBelow).length;
  if (grams.length < fewest || small < grams.length / 2) return [];
  const line = (unit: string): string => writeCsv([[file, plan.header, "fresh_g", unit]], { guard: true }).trim();
  return [
    logEntry({
      file,
      column: plan.header,
      raw: plan.header,
      rule: "weights-all-small",
      severity: "warning",
      reason: "every fresh weight is a few grams, which is little for a tray: are they ounces? They are read as grams",
      expected: "weights of whole trays, such as 310 g",
      action: `Add the line ${line("oz")} to columns.csv if they are ounces, or ${line("g")} if they are grams`,
    }),
  ];
}
