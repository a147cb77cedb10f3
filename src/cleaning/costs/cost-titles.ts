import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { perWords } from "../../records/words/per-words.ts";
import { plainName } from "../side-sheets/match-side-columns.ts";
import { costMeasure } from "./cost-amount.ts";
import { baseNamed } from "./read-cost-base.ts";

const forUse = new RegExp(`(?:^|\\s)(?:${perWords}|each|for(?= \\d))\\s+([\\p{L}\\d][^:([]*)`, "iu");

/** A list under a title alone, "Cost per tray", with these names for its things and their prices. */
export function withTitleAsPrice(table: RawTable, thing: string, price: string): RawTable {
  const [title = "", ...others] = table.header;
  if (title === "" || others.length === 0 || others.some((name) => name !== "")) return table;
  return { ...table, header: [thing, forUse.test(title) ? title : price, ...others.slice(1)] };
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
