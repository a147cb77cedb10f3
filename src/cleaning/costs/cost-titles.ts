import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { fold } from "../../records/words/fold.ts";
import { placesOf } from "../../records/words/languages.ts";
import { speaksOfMoney } from "../../records/words/money-words.ts";
import { perWords } from "../../records/words/per-words.ts";
import { isCurrencyCode } from "../side-sheets/currency-mark.ts";
import { plainName } from "../side-sheets/match-side-columns.ts";
import { costMeasure } from "./cost-amount.ts";
import { baseNamed } from "./read-cost-base.ts";

const forUse = new RegExp(`(?:^|\\s)(?:${perWords}|each|for(?= \\d))\\s+([\\p{L}\\d][^:([]*)`, "iu");

const times = {
  ...{ hourly: "hour", weekly: "week", monthly: "month", quarterly: "quarter", yearly: "year", annual: "year" },
} as const;

/** "monthly cost" is a cost per month, and "minutes" are an amount in them. */
export const withTimeBehind = (name: string, keys: ReadonlyArray<string>): string => {
  const [unit] = /^(?:min|kwh)/i.exec(/^(?:minutes|mins?|min|kwh)$/i.exec(name.trim())?.[0] ?? "") ?? [];
  if (unit !== undefined && !keys.includes("amount") && !keys.includes("hours"))
    return keys.includes("watts") ? `hours (${unit})` : `amount (${unit})`;
  const marked = name.replace(/\s([A-Z]{3})\s*$/, (all, code: string) => (isCurrencyCode(code) ? ` (${code})` : all));
  return marked.replace(
    /^(hourly|monthly|yearly|annual|quarterly|weekly) (costs?|price|rate|wage)(?= *[([]|$)/i,
    (_, time, what) => `${what} per ${times[time.toLowerCase() as keyof typeof times]}`,
  );
};

/** A list under a title alone, "Cost per tray", with these names for its things and their prices. */
export function withTitleAsPrice(table: RawTable, thing: string, price: string): RawTable {
  const [title = "", ...others] = table.header;
  if (title === "" || others.length === 0 || others.some((name) => name !== "")) return table;
  return { ...table, header: [thing, forUse.test(title) ? title : price, ...others.slice(1)] };
}

/** A cost sheet with a column of bills for each month, as the sum of a line's bills for so many months. */
export function withMonthsAdded(table: RawTable): RawTable {
  const months = placesOf((words) => words.months);
  const isMonth = (name: string): boolean => months.has(fold(name).split(" ")[0]!);
  const at = [...table.header.keys()].filter((index) => isMonth(table.header[index]!));
  if (at.length < 2 || table.header.some((name) => speaksOfMoney(name) || plainName(name) === "per")) return table;
  let last = 0;
  table.forEachRow((cells) => {
    last = Math.max(last, at.findLastIndex((index) => cells[index]!.trim() !== "") + 1);
  });
  const billed = at.slice(0, last);
  const header = [...table.header.map((name, index) => (at.includes(index) ? "" : name)), "cost", "per"];
  return withRows(table, header, (cells) => {
    const bills = billed.map((index) => cells[index]!.trim()).filter((bill) => bill !== "");
    // a month without a bill may have cost nothing, or its bill is still to come
    return [...cells, bills.join(" + "), bills.length === last ? `${last} months` : ""];
  });
}

/** What a row says that is a name alone: "Per tray:", "Each cook". */
function useOfTitle(cells: ReadonlyArray<string>): string | undefined {
  const [title, second] = cells.filter((cell) => cell.trim() !== "");
  const use = second === undefined ? forUse.exec(` ${title ?? ""}`)?.[1]?.trim() : undefined;
  const isUse = use !== undefined && (baseNamed(use) !== undefined || costMeasure(use, 1)?.unit === "month");
  return isUse ? use : undefined;
}

/** "Trays", "for how many loads", "months": a column of how many of what a price is for. */
const howMany =
  /^(?:for )?(?:how many |number of )?(trays|bags|blocks|loads|cooks|batches|months|weeks|years)(?: (?:it |they )?(?:makes?|made|lasts?|does|fills?))?$/;

/** A cost sheet without a column of what a price is for, with what titles between its lines, or counts, say of it. */
export function withBasesSaid(table: RawTable): RawTable {
  const plain = table.header.map(plainName);
  if (plain.some((name) => /^(?:per|for|base|basis|how often|frequency)$/.test(name))) return table;
  const counted = plain.findIndex((name) => howMany.test(name));
  if (counted >= 0) {
    const what = howMany.exec(plain[counted]!)![1]!;
    return withRows(
      table,
      table.header.map((name, index) => (index === counted ? "per" : name)),
      (cells) => {
        const isBare = /^\s*\d+\s*$/.test(cells[counted]!);
        const said = `${cells[counted]!.trim()} ${what}`;
        return isBare ? cells.map((cell, index) => (index === counted ? said : cell)) : cells;
      },
    );
  }
  let isSaid = false;
  table.forEachRow((cells) => {
    isSaid ||= useOfTitle(cells) !== undefined;
  });
  if (!isSaid) return table;
  return {
    ...table,
    header: [...table.header, "per"],
    forEachRow: (visit) => {
      let use = "";
      table.forEachRow((cells, row) => {
        const title = useOfTitle(cells);
        use = title ?? use;
        visit([...cells, title === undefined ? use : ""], row);
      });
    },
  };
}
