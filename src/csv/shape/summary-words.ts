import { summaryKind } from "../../records/words/summary-label.ts";
import { isNothing } from "./cell-kind.ts";
import { isValueLike } from "./value-like.ts";

/** What may stand behind the name of a sum: of what, over what, without what, a code, a letter. */
const rest =
  /^(?:[:=]|\(.*\)|\/\s*\p{L}+|[:=-]?\s*(?:of|for|per|over|all|materials?|ingredients?|consumables?|energy|labou?r|overheads?|material\w*|fresh|dry|dried|wet|weight|wt|yield|cost|costs|g|grams|kg|lbs?|oz|trays?|bags?|blocks?|batch|cook|run|charge|lot|lote|lotto|partij|partia|pro|par|por|je|na|schalen?|beutel|und|and|&|w\/?o|gener\w*|génér\w*|gral|without|excl\.?|excluding|except|ohne|sans|sin|senza|zonder|bez|sem)(?:\s.*)?|#?\p{L}{0,3}-?\d{1,4}|\d{1,4}(?:[.,]\d+)?\s*(?:m?l|cc|k?g|oz|lbs?|%|°?[cf])|\p{L})\s*$/iu;

const isTotal = (text: string): boolean => {
  const kind = summaryKind(text);
  return kind === "sum" || kind === "mean" || kind === "median";
};

/** Whether a text names a sum or a mean: "Total", "Avg/tray", "Batch A mean", "Zwischensumme". */
export function namesSummary(cell: string): boolean {
  const text = cell.trim().replace(/\s*[:=]$/, "");
  if (text === "" || text.length > 60 || !/[\p{L}Σ∑⌀]/u.test(text) || !isTotal(text)) return false;
  const words = text.replace(/([^\s/])\/(?=\p{L}{2})/gu, "$1 /").split(/\s+/);
  if (words.length === 1 || isTotal(words.at(-1)!)) return true;
  const length = [1, 2, 3].find((count) => isTotal(words.slice(0, count).join(" "))) ?? words.length;
  const behind = words.slice(length).join(" ");
  return behind === "" || rest.test(behind);
}

/** Whether a text names a count or a spread: "n", "Std dev", "max". */
export function namesSpread(cell: string): boolean {
  const kind = summaryKind(cell);
  return kind === "count" || kind === "spread";
}

/** Where and why a row is a summary by its label. */
export interface SummaryLabel {
  label: string;
  column: number;
}

/**
 * The label that makes a row a summary ("Total", "Average dry", "Std dev"): it stands in any column, and every other cell
 * is a number, a formula's error, a dot or a dash, or empty.
 * @param afterSummary whether the row right above is blank or sums up; labels of spread such as "min" need that
 * @param isTrayName whether a cell reads like the name of a tray; a row that has one is a tray's, whatever its note says
 */
export function summaryLabel(
  cells: ReadonlyArray<string>,
  afterSummary: boolean,
  isTrayName: (cell: string, column: number) => boolean,
): SummaryLabel | undefined {
  let found: SummaryLabel | undefined;
  for (let column = 0; column < cells.length; column++) {
    const cell = cells[column]!;
    // plain digits, which most cells are, rule nothing out
    const code = cell.charCodeAt(0);
    if (cell === "" || (code >= 48 && code <= 57 && !/\p{L}/u.test(cell))) continue;
    const text = cell.trim();
    if (isNothing(text) || isTrayName(text, column)) {
      if (!isNothing(text)) return undefined;
      continue;
    }
    if (namesSummary(text) || (namesSpread(text) && (afterSummary || found !== undefined))) {
      found ??= { label: text, column };
      continue;
    }
    if (isValueLike(text) && !/^\p{L}/u.test(text)) continue;
    return undefined;
  }
  return found;
}
