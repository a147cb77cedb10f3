import type { Settings } from "../../records/setting.ts";
import { perWords } from "../../records/words/per-words.ts";
import { costMeasure, splitUnit } from "./cost-amount.ts";
import { baseNamed } from "./read-cost-base.ts";
import type { CostRow } from "./read-measured.ts";

const useBehind = new RegExp(
  `[\\s(,]+(?:(?:${perWords}|each|for(?= \\d))\\s+([\\p{L}\\d][\\p{L}\\d ]*?)|(weekly|monthly|quarterly|yearly|annual))\\)?$`,
  "iu",
);

/** "Gas per cook": what an item says that its price is for, where nothing else does. */
export function settleUseOfItem(row: CostRow): void {
  const [, named = "", time = ""] = useBehind.exec(row.text("item")) ?? [];
  const use = named || time;
  const isUse = baseNamed(use) !== undefined || costMeasure(use, 1)?.unit === "month" || time !== "";
  if (row.has("per") || !isUse) return;
  row.say(
    "item",
    { rule: "use-of-item", reason: "its name says what it is for", expected: "", severity: "change" },
    use,
  );
  row.take({ per: use });
}

/** "25 kg", "(100)", "pack of 50", "100 pcs" in the name of an item. */
const packIn =
  /\(\s*(\d{1,5})\s*\)|(?:(?:pack|box|roll|bag|case|sleeve) of |(?<!\p{L})x ?)(\d{1,5})(?![\d.,])|(?<![\p{L}\d.,])(\d[\d.,]*)\s?(kg|g|lbs?|oz|l|ml|cc|pcs|pieces|stk|st)(?!\p{L})/giu;

/**
 * "Rye 25 kg", "Bags (100)": the one pack that an item's name says, where the row has none and the amount is counted so.
 * @param counted what the amount is counted in where no cell holds it
 */
export function settlePackOfItem(row: CostRow, { cupMillilitres: cup }: Settings, counted = ""): void {
  const item = row.text("item");
  const [found, second] = item.matchAll(packIn);
  if (row.has("pack_size") || row.has("pack_unit") || found === undefined) return;
  if (!row.has("amount") && counted === "") return;
  if (second !== undefined || /\d/.test(item.replace(found[0], ""))) return;
  const [, bracketed, ofPack, size = bracketed ?? ofPack, unit = "each"] = found;
  const typed = [counted, splitUnit(row.text("amount")).unit, row.text("amount_unit"), row.headerUnit("amount")];
  const used = typed.find((one) => one !== "") ?? "each";
  if (costMeasure(unit, cup)?.unit !== costMeasure(used, cup)?.unit) return;
  const pack = `${size} ${unit}`;
  row.say(
    "item",
    { rule: "pack-of-item", reason: "its name says what a pack holds", expected: "", severity: "change" },
    pack,
  );
  row.take({ pack_size: pack });
}
