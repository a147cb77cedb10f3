import { fold } from "./fold.ts";
import { languages } from "./languages.ts";
import type { SummaryKind } from "./vocabulary.ts";

const kinds: ReadonlyArray<SummaryKind> = ["sum", "mean", "median", "count", "spread"];

const labels = new Map<string, SummaryKind>();
for (const { summaries } of languages) {
  for (const kind of kinds) {
    for (const label of summaries[kind].split("|").map(fold))
      if (label !== "" && !labels.has(label)) labels.set(label, kind);
  }
}

/**
 * What a cell that labels a row says the row is of the rows above it, in any of the eight languages. The whole cell has
 * to be the label, with at most a name around it: "Total", "Subtotal A", "Gesamt:", "Ø pro Schale", "Avg/tray".
 * @param cell as typed
 * @returns undefined for a cell that is no such label
 * @example summaryKind("Zwischensumme A") // "sum"
 */
export function summaryKind(cell: string): SummaryKind | undefined {
  if (cell.length > 60) return undefined;
  const words = fold(cell.replaceAll("Σ", " Σ ").replaceAll("Ø", " ø ")).split(" ");
  if (words[0] === "" || words.length > 6) return undefined;
  // the sign for a mean, without its stroke a letter like others
  if (words[0] === "o" && !/[Øø]/.test(cell)) return undefined;
  for (let length = Math.min(3, words.length); length > 0; length--) {
    const first = labels.get(words.slice(0, length).join(" "));
    if (first !== undefined && (length > 1 || words.length === 1 || !/^(?:n|se|sd|i|tot|ges|min|max)$/.test(words[0]!)))
      return first;
  }
  const last = labels.get(words.at(-1)!);
  if (words.length === 1 || (last !== "sum" && last !== "mean")) return undefined;
  // a short label counts behind an amount: "15 mL avg"
  const isAmount = /^\d+(?: \d+)? ?(?:m?l|cc|k?g|oz|lbs?|%)?$/.test(words.slice(0, -1).join(" "));
  return words.at(-1)!.length > 3 || isAmount ? last : undefined;
}
