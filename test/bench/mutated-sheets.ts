import { readFileSync } from "node:fs";
import { join } from "node:path";
import Papa from "papaparse";
import { readBook } from "../../src/engine/read-book.ts";
import { runBook } from "../../src/engine/run-book.ts";
import type { Book } from "../../src/records/book.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { sheet } from "../cleaning/book-of.ts";
import type { AttackTable, Faults } from "./attacks.ts";

const spice = [..."\u0000\u001b\u00a0\u200b\ufeff,;\t\"'=+-@\n\r|%°€½()[]{}<>&\\/", "NaN", "1e999", "-0", "__proto__"];

/** A text with some of it changed, cut, doubled or spiced. */
function mutated(text: string, random: ReturnType<typeof seededRandom>): string {
  let changed = text;
  for (let times = 1 + random.integer(12); times > 0; times--) {
    const at = random.integer(changed.length + 1);
    const length = random.integer(40);
    const piece = changed.slice(at, at + length);
    const what = random.integer(5);
    const instead =
      what === 0
        ? ""
        : what === 1
          ? piece + piece
          : what === 2
            ? spice[random.integer(spice.length)]!.repeat(1 + random.integer(3)) + piece
            : what === 3
              ? piece.split("").reverse().join("")
              : String.fromCodePoint(random.integer(0xd7ff));
    changed = changed.slice(0, at) + instead + changed.slice(at + length);
  }
  return changed;
}

/** Rows of the harvest sheets that are neither the header's, nor a tray's, nor set aside; counted as the sheets were opened. */
const harvestRowsMissing = ({ account, issues }: Book): number =>
  (account?.lost ?? 0) + issues.filter(({ rule }) => rule === "rows-lost").length;

/**
 * Rows of a cost or product sheet that gave no line and that nothing is said of. They are counted by another reader of CSV,
 * so only where the two cannot differ: no quotation mark and no odd separator was put in.
 */
function moneyRowsMissing(path: string, text: string, { costLines, products, unread, issues, leftOut }: Book): number {
  if (!/^(?:costs|products)\.csv$/.test(path) || /["\0;\t|\r]/.test(text)) return 0;
  const ofSheet = ({ file }: { file: string }): boolean => file === path;
  // what is said of the sheet as a whole holds for all of its rows
  if (issues.some((issue) => ofSheet(issue) && issue.row === 0 && issue.severity !== "note")) return 0;
  const named = new Set([
    ...[...(costLines ?? []), ...(products ?? []), ...(unread ?? [])].map(({ source }) => source.row),
    ...[...issues, ...leftOut].filter(ofSheet).map(({ row }) => row),
  ]);
  const rows = Papa.parse<string[]>(text, { delimiter: ",", skipEmptyLines: false }).data;
  const filled = rows.flatMap((cells, index) => (cells.some((cell) => cell.trim() !== "") ? [index + 1] : []));
  return filled.slice(1).filter((row) => !named.has(row)).length;
}

/** Does work and counts what it throws, and that it took long by the program's own time, so that a busy machine does not count. */
async function timed(found: { thrown: number; "over 5 s": number }, work: () => Promise<void>): Promise<void> {
  const start = process.cpuUsage();
  try {
    await work();
  } catch (error) {
    found.thrown++;
    console.log(String(error));
  }
  const { user, system } = process.cpuUsage(start);
  if (user + system > 5e6) found["over 5 s"]++;
}

/**
 * Sheets and whole books with faults in them: nothing throws, nothing takes long, and every row is accounted for.
 * @returns what was found, counted
 */
export async function mutatedBooks(table: AttackTable, sheets: number, books: number, seed = 17): Promise<Faults> {
  const paths = ["costs.csv", "products.csv", "settings.csv", "harvests/2026-spring.csv", "harvests/2026-summer.csv"];
  const bases = ["demo-book", "as-typed-book"].map((name) =>
    paths.map((path) => [path, readFileSync(join("data-samples", name, path), "utf8")] as const),
  );
  const random = seededRandom(seed);
  const ofSheets = { thrown: 0, "over 5 s": 0, "rows missing": 0 };
  const rowsMissing = (book: Book, texts: ReadonlyArray<readonly [string, string]>): number =>
    texts.reduce((sum, [path, text]) => sum + moneyRowsMissing(path, text, book), harvestRowsMissing(book));
  for (let k = 0; k < sheets; k++) {
    const [path, text] = bases[k % 2]![random.integer(paths.length)]!;
    await timed(ofSheets, async () => {
      const changed = mutated(text, random);
      const missing = rowsMissing(await readBook([sheet(path, changed)]), [[path, changed]]);
      if (missing > 0) console.log(`sheet ${k}, ${path}: ${missing} rows missing`);
      ofSheets["rows missing"] += missing;
    });
  }
  table.add("mutated sheets", sheets, ofSheets);
  const ofBooks = { thrown: 0, "over 5 s": 0, "rows missing": 0, "questions failed": 0 };
  for (let k = 0; k < books; k++) {
    await timed(ofBooks, async () => {
      const texts = bases[k % 2]!.map(([path, text]) => [path, mutated(text, random)] as const);
      const { book, answers } = await runBook(texts.map(([path, text]) => sheet(path, text)));
      ofBooks["rows missing"] += rowsMissing(book, texts);
      for (const { outcome } of answers) {
        if (outcome.kind !== "cannot-tell" || outcome.failure === undefined) continue;
        ofBooks["questions failed"]++;
        console.log(`${outcome.failure.code}: ${outcome.failure.what}`);
      }
    });
  }
  table.add("whole books, all sheets mutated", books, ofBooks);
  return Object.fromEntries(
    Object.entries(ofBooks).map(([what, count]) => [what, count + ((ofSheets as Record<string, number>)[what] ?? 0)]),
  );
}
