import type { Outcome } from "../../src/analysis.ts";
import { renderedSentence } from "./rendered-sentence.ts";

/**
 * What cannot be written or cannot be so in an outcome: a number that is none, an end of a range without the other or on the
 * wrong side, a p beyond 1, a row with a cell too few.
 */
export function outcomeFaults(outcome: Outcome): string[] {
  const found: string[] = [];
  for (const { label, value, low, high, p = 0 } of outcome.estimates) {
    if (!(p >= 0 && p <= 1)) found.push(`${label}: p ${p}`);
    if (!Number.isFinite(value)) found.push(`${label} is ${value}`);
    if ((low === undefined) !== (high === undefined)) found.push(`${label} has one end`);
    if (low !== undefined && !(low <= value + 1e-9 && value <= high! + 1e-9)) {
      found.push(`${label}: ${value} lies outside ${low} to ${high}`);
    }
  }
  for (const { caption, columns, rows } of outcome.tables) {
    for (const row of rows) {
      if (row.length !== columns.length) found.push(`${caption}: ${row.length} cells under ${columns.length} heads`);
      row.forEach((cell, index) => {
        if (typeof cell === "number" && !Number.isFinite(cell))
          found.push(`${caption}, ${columns[index]!.label}: ${cell}`);
      });
    }
  }
  for (const chart of outcome.charts) {
    if (chart.kind !== "intervals") continue;
    for (const { label, low, value, high } of chart.rows) {
      if (![low, value, high].every(Number.isFinite)) found.push(`${chart.title}, ${label}: ${low}, ${value}, ${high}`);
    }
  }
  const reported = outcome.kind === "answer" ? [outcome.sentence] : [outcome.reason, outcome.wouldSettle];
  for (const sentence of [...reported, ...outcome.method, ...outcome.caveats]) {
    const text = renderedSentence(sentence);
    if (/NaN|undefined|null|Infinity|\[object/.test(text)) found.push(text);
  }
  return found;
}
