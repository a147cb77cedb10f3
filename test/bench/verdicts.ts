import { decideComparison, decideStartedTrays, decideUnordered } from "../../src/decisions/verdict/index.ts";
import { blocked, growBook, wholeCooks } from "../simulation/verdict-books.ts";
import {
  type CountedRow,
  crossedRows,
  nameRows,
  oneCookRows,
  payingRows,
  startedRows,
} from "../simulation/verdict-more-rows.ts";
import { countedMisses, coverageHeld, verdictMisses, verdictRates } from "../simulation/verdict-rates.ts";
import { leaningRows, readingRows, refusedRows, reportRows } from "../simulation/verdict-report-rows.ts";
import { gainRows, nullRows } from "../simulation/verdict-rows.ts";

const percent = (share: number): string => (100 * share).toFixed(1).padStart(6);
/** Standard errors by which a counted rate may miss. */
const errors = 2.5;

const headings = ["layout".padEnd(54), "settled", " stated", "leaning", " cannot", "covers", "  width", "t test"].join(
  " ",
);

function ratesTable(books: number): number {
  let missed = 0;
  for (const row of [...gainRows, ...nullRows, ...oneCookRows]) {
    const rates = verdictRates(row, books, 1);
    const misses = oneCookRows.includes(row) ? coverageHeld(row, rates, errors) : verdictMisses(row, rates, errors);
    missed += misses.length > 0 ? 1 : 0;
    const { settled, coverage } = row.expected;
    console.log(
      [
        row.name.padEnd(54),
        percent(rates.settled).padStart(7),
        String(settled ?? "").padStart(7),
        percent(rates.leaning).padStart(7),
        percent(rates.cannotTell).padStart(7),
        percent(rates.coverage),
        rates.width.toFixed(1).padStart(7),
        percent(rates.naive),
        coverage === undefined ? "" : `(covers: ${coverage})`,
        misses.join("; "),
      ].join(" "),
    );
  }
  return missed;
}

function countedTable(rows: ReadonlyArray<CountedRow>, books: number): number {
  let missed = 0;
  for (const row of rows) {
    const counted = row.count(books, 1);
    const misses = countedMisses(row, counted, books, errors);
    missed += misses.length > 0 ? 1 : 0;
    const reported = Object.entries(counted).map(([name, share]) => {
      const stated = row.expected[name];
      return `${name} ${(100 * share).toFixed(1)}${stated === undefined ? "" : ` (${stated})`}`;
    });
    console.log(`${row.name.padEnd(60)} ${reported.join(", ")} ${misses.join("; ")}`);
  }
  return missed;
}

function speed(): void {
  const small = growBook({ cooks: blocked(16, [3, 6, 9], 2), effect: () => 0, loss: () => 0.1 }, 1);
  const large = growBook({ cooks: blocked(3333, [3, 6, 9], 2), effect: () => 0, loss: () => 0.1 }, 1);
  const whole = growBook({ cooks: wholeCooks([3, 6, 9], 1111, 6), effect: () => 0 }, 1);
  const named = (trays: typeof small) => trays.map((tray) => ({ ...tray, level: `L${tray.level}` }));
  const [smallNames, largeNames] = [named(small), named(large)];
  const crossed = large.map((tray, i) => ({ ...tray, other: i % 2 === 0 ? "bran" : "none" }));
  const time = (name: string, times: number, run: () => unknown): void => {
    for (let warm = 0; warm < Math.min(times, 20); warm++) run();
    const start = performance.now();
    for (let i = 0; i < times; i++) run();
    console.log(`${name.padEnd(40)} ${((performance.now() - start) / times).toFixed(2)} ms`);
  };
  time("96 trays, doses", 200, () => decideComparison(small));
  time("96 trays, names", 200, () => decideUnordered(smallNames));
  time("96 trays, started", 200, () => decideStartedTrays(small));
  time("20,000 trays, doses", 5, () => decideComparison(large));
  time("20,000 trays, doses of whole cooks", 5, () => decideComparison(whole));
  time("20,000 trays, names", 5, () => decideUnordered(largeNames));
  time("20,000 trays, two things varied", 5, () => decideComparison(crossed));
}

/**
 * Verdicts over simulated books of known truth: settled, leaning and intervals beside the rates that the written rules
 * state, and beside a t test of all trays ("t test", at 5 %).
 * @param books per row
 */
export function benchVerdicts(books = 2000): void {
  console.log(`${books} books a row, seeds 1 to ${books}; rates in %, what is stated in brackets or under "stated"`);
  console.log(headings);
  const missed =
    ratesTable(books) +
    countedTable(
      [
        ...startedRows,
        ...crossedRows,
        ...payingRows,
        ...nameRows,
        ...leaningRows,
        ...readingRows,
        ...reportRows,
        ...refusedRows,
      ],
      books,
    );
  console.log(missed === 0 ? "every row kept what is asked of it" : `${missed} rows missed what is asked of them`);
  speed();
}
