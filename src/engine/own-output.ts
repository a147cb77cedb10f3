import { logColumns } from "../cleaning/issues-csv.ts";
import type { SheetSource } from "../records/sheet.ts";

/** What this program writes and knows again: none of it is a sheet, and a newer one may take its place. */
export type OwnOutput = "report" | "page" | "answers" | "log" | "price list" | "week" | "calendar";

/** The columns of a written price list, in order. */
export const priceListColumns = [
  ...(["product", "channel", "form", "grams", "currency", "full_cost", "cost_without_own_time"] as const),
  ...(["cost_of_one_more", "price_floor", "break_even_price", "target_margin_pct", "target_markup_pct"] as const),
  ...(["price_to_ask", "margin_at_it_pct", "fee_pct", "fee_base", "fee_fixed", "tax_pct", "tax_included"] as const),
  ...(["current_price", "earned_per_unit", "margin_pct", "markup_pct", "earned_per_gram"] as const),
  ...(["earned_per_started_tray", "earned_per_shelf_day", "break_even_units_month"] as const),
  ...(["price_per_100_g", "price_per_oz", "quantity_from"] as const),
  ...(["quantity_discount_pct", "quantity_price", "standing", "remark"] as const),
] as const;

const headers: Readonly<Record<string, OwnOutput>> = {
  [logColumns.join(",")]: "log",
  [priceListColumns.join(",")]: "price list",
};

/** how much of a file's start tells what it is, in bytes */
export const headBytes = 1 << 16;

/**
 * What a file of ours is, by how it starts: pages carry our name, answers their format, sheets their exact header.
 * @param head the first `headBytes` of it as text
 * @returns undefined for every other file
 * @example ownOutput('{\n "format": "gramwright run 2",') // "answers"
 */
export function ownOutput(head: string): OwnOutput | undefined {
  const text = head.replace(/^\uFEFF/, "");
  if (/^<!doctype html/i.test(text)) {
    if (text.includes('<body class="due-week">')) return "week";
    if (!text.includes('<meta name="generator" content="Gramwright ')) return undefined;
    return text.includes('<body class="drop-page">') ? "page" : "report";
  }
  if (/^\{\s*"format": "gramwright run /.test(text)) return "answers";
  if (/^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\nPRODID:-\/\/Gramwright\/\//.test(text)) return "calendar";
  const [first = ""] = text.split(/\r?\n/, 1);
  return Object.hasOwn(headers, first) ? headers[first] : undefined;
}

/** What a sheet is that this program wrote itself, by its first bytes. @throws what reading them throws */
export function ownSheet(source: SheetSource): OwnOutput | undefined {
  for (const bytes of source.chunks()) return ownOutput(new TextDecoder().decode(bytes.subarray(0, headBytes)));
  return undefined;
}
