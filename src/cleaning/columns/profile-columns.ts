import type { RawTable } from "../../records/sheet.ts";
import { isLoss } from "../../records/tray.ts";
import type { TrayWord } from "../../records/words/vocabulary.ts";
import { arePartsOfAll } from "../rows/several-trays.ts";
import { readOutcome } from "../values/outcome-words.ts";
import { answerWithMore, yesOrNo } from "../values/yes-or-no.ts";
import { type CellClass, cellClass } from "./cell-class.ts";
import type { ColumnProfile } from "./column-profile.ts";

const textsCounted = 20_000;
/** A column of outcomes has few different texts. */
const wordsRead = 500;
/** Rows in which two weights are held against each other. */
const rowsBegun = 50;

const mark = /^[✓✔✗✘☑☒☐]$/u;

/** "2 lb 3 oz" and "1.2 kg" begin with no number of grams. */
const inOtherUnit = /\d\s*(?:kg|kilo|lb|oz|pound|ounce)/i;

/** What a text says of a tray's end, for a column whose name says nothing. */
function endOf(text: string): "loss" | "outcome" | "nothing" {
  if (mark.test(text)) return "loss";
  const found = readOutcome(text);
  if (found === undefined) return "nothing";
  return found.sure && !found.contradictory && isLoss(found.says as TrayWord) ? "loss" : "outcome";
}

/**
 * Counts what the different texts in some columns look like, in one pass over the table. A text counts once however often
 * it stands there, so that repeating a row (one for each flush of a tray) never turns the verdict.
 */
export function profileColumns(table: RawTable, indexes: ReadonlyArray<number>): ReadonlyMap<number, ColumnProfile> {
  const columns = indexes.map((index) => ({
    index,
    seen: new Set<string>(),
    count: {} as Partial<Record<CellClass, number>>,
    filled: 0,
    losses: 0,
    outcomes: 0,
    answers: 0,
    refusals: 0,
    high: 0,
    most: 0,
    start: [] as number[],
  }));
  table.forEachRow((cells) => {
    for (const column of columns) {
      const { index, seen, count } = column;
      const text = (cells[index] ?? "").trim();
      if (text !== "" && seen.size < textsCounted) column.filled++;
      if (column.start.length < rowsBegun)
        column.start.push(inOtherUnit.test(text) ? Number.NaN : Number.parseFloat(text.replace(",", ".")));
      if (seen.has(text)) continue;
      // a column with more different texts than this has its verdict already
      if (seen.size < textsCounted) {
        seen.add(text);
        const look = cellClass(text);
        count[look] = (count[look] ?? 0) + 1;
        if ((look === "number" || look === "percent") && Number.parseFloat(text) > 30) column.high++;
        if (look === "number") column.most = Math.max(column.most, Number.parseFloat(text.replace(",", ".")));
        const answer =
          seen.size < wordsRead ? (yesOrNo(text) ?? yesOrNo(answerWithMore(text)?.first ?? "")) : undefined;
        if (answer !== undefined) column.answers++;
        if (answer === false) column.refusals++;
        const end = look === "text" && seen.size < wordsRead ? endOf(text) : "nothing";
        if (end === "loss") column.losses++;
        if (end !== "nothing") column.outcomes++;
      }
    }
  });
  return new Map(
    columns.map(({ index, seen, count, ...others }) => [
      index,
      {
        counts: count,
        distinct: seen.size - (seen.has("") ? 1 : 0),
        areParts: arePartsOfAll([...seen].filter((text) => text !== "")),
        ...others,
      },
    ]),
  );
}
