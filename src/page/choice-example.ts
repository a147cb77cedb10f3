import { harvestField, isHarvestFieldKey } from "../records/harvest-field.ts";

const months = "January February March April May June July August September October November December".split(" ");

/** What the typed date would be if its numbers came in this order; "" where they can not. */
function dateExample(typed: string, order: string): string {
  const numbers = typed.split(/\D+/).filter((part) => part !== "");
  if (numbers.length !== 3) return "";
  const [a, b, c] = numbers as [string, string, string];
  const parts = new Map([
    ["day first", [c, b, a]],
    ["month first", [c, a, b]],
    ["year first", [a, b, c]],
  ]).get(order);
  if (parts === undefined) return "";
  const [year, month, day] = parts.map(Number) as [number, number, number];
  const name = months[month - 1];
  if (name === undefined || day < 1 || day > 31) return "";
  return `${typed} is ${day} ${name} ${year < 100 ? 2000 + year : year}`;
}

/** What the typed number would be if this were its decimal mark. */
function numberExample(typed: string, mark: string): string {
  const found = /\d[\d.,]*/.exec(typed)?.[0];
  if (found === undefined) return "";
  const [decimal, thousands] = mark === "comma" ? [",", "."] : [".", ","];
  return `${found} is ${found.replaceAll(thousands, "").replace(decimal, ".")}`;
}

/** What a choice for a column means: the field's name, or what becomes of a column that is none. */
function columnChoice(choice: string): string {
  if (isHarvestFieldKey(choice)) return harvestField(choice).label.toLowerCase();
  return choice === "factor" ? "something else I varied" : "leave it out";
}

/**
 * What a cell would mean under one choice, in a few words; "" where no example helps.
 * @param key of the setting; @param typed the cell
 * @example choiceExample("date_order", "day first", "3/4/26") // "3/4/26 is 3 April 2026"
 */
export function choiceExample(key: string, choice: string, typed: string): string {
  if (key === "date_order") return dateExample(typed, choice);
  if (key.startsWith("column:")) return columnChoice(choice);
  return key === "decimal_mark" ? numberExample(typed, choice) : "";
}
