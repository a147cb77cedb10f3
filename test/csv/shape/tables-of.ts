import { harvestWords } from "../../../src/cleaning/columns/harvest-words.ts";
import { openSheet } from "../../../src/csv/open-sheet.ts";
import { openShape, type ShapeSettings } from "../../../src/csv/shape/sheet-words.ts";
import { sourceOf } from "../source-of.ts";

/** A sheet's tables as header and rows of cells joined by bars, with what was said and left out. */
export async function tablesOf(
  content: string | Uint8Array,
  settings: Partial<ShapeSettings> = {},
  path = "sheet.csv",
) {
  const opened = await openSheet(sourceOf(content, path), {
    words: harvestWords(),
    shapeOf: () => ({ ...openShape, ...settings }),
  });
  const tables = opened.tables.map(({ header, forEachRow }) => {
    const rows: string[] = [];
    forEachRow((cells) => rows.push(cells.join("|")));
    return [header.join("|"), ...rows];
  });
  return {
    ...opened,
    tables: opened.tables,
    texts: tables,
    rules: opened.issues.map(({ rule, severity }) => `${rule}: ${severity}`),
    left: opened.leftOut.map(({ rule, row }) => `${rule} ${row}`),
  };
}
