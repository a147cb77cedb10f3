import { springTrays } from "../../data-samples/demo-book.ts";
import { sheetAsTyped } from "../../data-samples/sheet-as-typed.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { sheet as sheetOf } from "../cleaning/book-of.ts";

const cells = [
  "",
  "-",
  "n/a",
  "0",
  "12,5",
  "1.234,5",
  "1,234",
  "1 234",
  "~45",
  "45ish",
  "40-50",
  ">50",
  "<1",
  "½ cup",
  "1 1/2 oz",
  "2 lb 3 oz",
  "2lb3oz",
  "35oz",
  "10cc",
  "2 tsp",
  "1 syringe",
  "72F",
  "72 deg",
  "22C",
  "22",
  "contam",
  "green?",
  "tossed",
  "3/4/26",
  "14.3.2026",
  "31/02/2026",
  "46097",
  "3 Mar",
  "#REF!",
  "#DIV/0!",
  "1.2E3",
  "1e999",
  "=1+1",
  "@x",
  "2 trays 310g",
  "Total",
  "NaN",
  "Infinity",
  "-5",
  "__proto__",
  "constructor",
  "<script>",
  '"',
  "'",
  "\u0000",
  "\ufeff",
  "٣",
  "1\u00a0234",
  "１２",
  "a".repeat(400),
  "12 mL inoculum",
  "good",
  "still going",
  "dry > fresh",
  "50 %",
  "0.129",
  "12.9",
];

/** One messy sheet: rows of a sheet as typed, with cells, marks, rows and columns knocked about. */
function messySheet(lines: ReadonlyArray<ReadonlyArray<string>>, random: SeededRandom): string {
  const pick = <T>(values: ReadonlyArray<T>): T => values[random.integer(values.length)]!;
  const rows = [lines[2]!, ...Array.from({ length: 1 + random.integer(6) }, () => pick(lines.slice(3)))].map((row) => [
    ...row,
  ]);
  const width = rows[0]!.length;
  for (let change = random.integer(12); change >= 0; change--) {
    const row = random.integer(rows.length);
    const column = random.integer(width);
    switch (random.integer(7)) {
      case 0:
        rows.splice(row, 0, [pick(cells)]);
        break;
      case 1:
        rows[row] = rows[row]!.slice(0, column);
        break;
      case 2:
        rows[row]!.push(pick(cells), pick(cells));
        break;
      case 3:
        rows.splice(row, 1, ...[rows[row]!, rows[row]!].map((one) => [...one]));
        break;
      default:
        rows[row]![column] = pick(cells);
    }
  }
  const mark = pick([",", ";", "\t", "|"]);
  // a cell set beyond a shortened row leaves holes before it
  const quoted = (cell = "") => (random.integer(4) === 0 ? `"${cell.replaceAll('"', '""')}"` : cell);
  return rows.map((row) => Array.from(row, (cell) => quoted(cell)).join(mark)).join(pick(["\n", "\r\n", "\r"]));
}

/** Cleans many generated messy sheets, one after the other; every one has to come back as a book. */
export async function benchMessySheets(count: number): Promise<void> {
  const random = seededRandom(20261);
  const lines = sheetAsTyped(springTrays(), seededRandom(93))
    .split("\r\n")
    .map((line) => line.split(";"));
  let [trays, entries, slowest] = [0, 0, 0];
  const start = performance.now();
  for (let sheet = 0; sheet < count; sheet++) {
    const text = messySheet(lines, random);
    const began = performance.now();
    try {
      const book = await cleanBook([sheetOf("harvests/messy.csv", text)]);
      trays += book.trays.length;
      entries += book.issues.length;
    } catch (error) {
      throw new Error(`sheet ${sheet} of the seeded run ended in ${String(error)}:\n${JSON.stringify(text)}`);
    }
    slowest = Math.max(slowest, performance.now() - began);
  }
  const seconds = (performance.now() - start) / 1000;
  console.log(
    `${count} messy sheets cleaned, none crashing: ${trays} trays, ${entries} log entries, ${((seconds / count) * 1000).toFixed(2)} ms a sheet, slowest ${slowest.toFixed(0)} ms`,
  );
}
