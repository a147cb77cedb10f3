import type { costColumns } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";
import type { NumberRange, RowCells } from "../side-sheets/row-cells.ts";
import { type CostMeasure, costMeasure, inMeasure, splitUnit } from "./cost-amount.ts";

export type CostColumn = (typeof costColumns)[number];
/** One row of a cost sheet. */
export type CostRow = RowCells<CostColumn>;

interface Measured {
  value: number;
  measure: CostMeasure;
}

const container = "(?:bag|sack|box|pack|bottle|syringe|tub|can|jar|roll|bucket|carton)s?";
const containerBehind = new RegExp(`^(\\d[\\d.,]*\\s*(?:k?g|m?l|lbs?|oz))\\s+${container}$`, "i");
const containerBefore = new RegExp(`^${container}\\s+(?:of\\s+|\\()?(?=\\d)`, "i");

/** What a container holds, without its name: "10 kg bag", "box of 12" and "sack (25 kg)" hold what their number says. */
export const contentsOf = (text: string): string =>
  containerBefore.test(text)
    ? text.replace(containerBefore, "").replace(/\)$/, "")
    : text.replace(containerBehind, "$1");
/** "2 x 12.5 kg", "2 bags of 25 kg" */
const severalOf = new RegExp(`^(\\d{1,3})\\s*(?:[x×*]|${container} of)\\s*(?=\\d)`, "iu");
const unitExamples = "a unit such as g, kg, lb, mL, L, each, hour, min, kWh, month or day";

/** "1 h 30 min" and "0:45" as hours; undefined for any other text. */
function clockHours(row: CostRow, key: "pack_size" | "amount", text: string): Measured | undefined {
  const [, hours, minutes] = /^(\d{1,2})\s*(?::|h(?:rs?|ours?)?\s*)(\d{2})\s*(?:min\w*|m|h)?$/i.exec(text) ?? [];
  if (minutes === undefined || Number(minutes) > 59) return undefined;
  const said = `${hours} h ${minutes} min`;
  row.say(key, { rule: "hours-and-minutes", reason: "hours and minutes", expected: "", severity: "change" }, said);
  return { value: Number(hours) + Number(minutes) / 60, measure: { unit: "hour", factor: 1 } };
}

/** Asks about a count with three decimals: 1.000 bags may be a thousand. */
function isThousands(row: CostRow, key: "pack_size" | "amount", number: string, value = 1000): boolean {
  if (!/^[1-9]\d{0,2}[.,]\d{3}$/.test(number) || value >= 1000) return false;
  row.say(key, {
    rule: "three-decimals",
    reason: "a count with three decimals: it may be thousands",
    expected: "a count without a mark, such as 1000",
    action: "Type the count without the mark",
  });
  return true;
}

/** A number with its unit: from the cell, else the unit column, else the header. */
export function readMeasured(
  row: CostRow,
  key: "pack_size" | "amount",
  unitKey: "pack_unit" | "amount_unit",
  { cupMillilitres }: Settings,
  fallback: CostMeasure | undefined,
  what: string,
): Measured | undefined {
  const typedText = row.text(key);
  // a unit alone is one of it: a price "per kWh", a rent of a "month"
  const isOne = key === "pack_size" && row.text(unitKey) === "" && costMeasure(typedText, cupMillilitres) !== undefined;
  if (isOne)
    row.say(
      key,
      { rule: "unit-alone", reason: "a unit alone is one of it", expected: "", severity: "change" },
      `1 ${typedText}`,
    );
  const whole = isOne ? `1 ${typedText}` : typedText;
  // "2 x 12.5 kg" is a pack of two bags
  const plain = key === "amount" ? whole : contentsOf(whole);
  const [several = "", times = "1"] = severalOf.exec(plain) ?? [];
  const text = plain.slice(several.length);
  const { number, unit } = splitUnit(text);
  const typed = [unit, row.text(unitKey), row.headerUnit(key)].find((some) => some !== "") ?? "";
  const range: NumberRange = { least: 0, above: key === "pack_size" };
  // "2 lb 3 oz" and "1 h 30 min" have a unit inside, "0:45" is of hours
  const clock = clockHours(row, key, text);
  if (clock !== undefined) return clock;
  if (/\p{L}/u.test(number.replace(/\d[eE][+-]?\d/, ""))) {
    const kind = costMeasure(unit, cupMillilitres)?.unit === "mL" ? "volume" : "mass";
    const value = row.within(key, row.quantity(key, text, kind), range, what);
    if (value === undefined) return undefined;
    return { value: Number(times) * value, measure: { unit: kind === "mass" ? "g" : "mL", factor: 1 } };
  }
  const measure = typed === "" ? fallback : costMeasure(typed, cupMillilitres);
  if (measure === undefined) {
    const [rule, reason] =
      typed === ""
        ? ["missing-unit", `${what} has no unit`]
        : ["unknown-unit", `the unit of ${what} is not a known one`];
    return row.say(unit === "" && row.has(unitKey) ? unitKey : key, {
      rule,
      reason,
      expected: unitExamples,
      action: "Type the unit",
    });
  }
  const inColumn = costMeasure(row.text(unitKey), cupMillilitres);
  if (inColumn !== undefined && inColumn.unit !== measure.unit) {
    return row.say(key, {
      rule: "two-units",
      reason: `the cell and ${unitKey} give units of different things`,
      expected: "one unit, in the cell or beside it",
      action: "Remove the wrong one",
    });
  }
  const value = row.within(key, row.quantity(key, number, "number"), range, what);
  if (measure.unit === "each" && isThousands(row, key, number, value)) return undefined;
  return value === undefined ? undefined : { value: Number(times) * inMeasure(value, measure), measure };
}
