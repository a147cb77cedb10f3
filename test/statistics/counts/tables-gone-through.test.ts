import { expect, test } from "vitest";
import { fisherExactTest } from "../../../src/statistics/counts/fisher-exact-test.ts";
import {
  adjustedNormalInterval,
  exactInterval,
  midPInterval,
  type ProportionInterval,
  wilsonInterval,
} from "../../../src/statistics/counts/proportion-interval.ts";
import { twoByTwoTest } from "../../../src/statistics/counts/two-by-two-test.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

type Table = number[][];
const sum = (values: ReadonlyArray<number>): number => values.reduce((all, one) => all + one, 0);
const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
const choose = (n: number, k: number): number => factorial(n) / factorial(k) / factorial(n - k);

/** Every table with these margins: each cell of the first row in turn, then the rows below. */
function tablesWith(rows: ReadonlyArray<number>, columns: ReadonlyArray<number>): Table[] {
  if (rows.length === 1) return [[[...columns]]];
  const fill = (left: number, at: number): Table => {
    if (at === columns.length - 1) return left <= columns[at]! ? [[left]] : [];
    return Array.from({ length: Math.min(left, columns[at]!) + 1 }, (_, n) => n).flatMap((n) =>
      fill(left - n, at + 1).map((rest) => [n, ...rest]),
    );
  };
  return fill(rows[0]!, 0).flatMap((row) =>
    tablesWith(
      rows.slice(1),
      columns.map((count, at) => count - row[at]!),
    ).map((rest) => [row, ...rest]),
  );
}

/** Freeman and Halton 1951 by its definition: all tables with the margins, each with its hypergeometric chance. */
function byDefinition(table: Table): { p: number; midP: number } {
  const columnTotals = table[0]!.map((_, at) => sum(table.map((row) => row[at]!)));
  const weight = (one: Table): number => 1 / one.flat().reduce((all, cell) => all * factorial(cell), 1);
  const weights = tablesWith(table.map(sum), columnTotals).map(weight);
  const here = weight(table);
  const ties = sum(weights.filter((one) => Math.abs(one / here - 1) < 1e-9));
  const rarer = sum(weights.filter((one) => one < here * (1 - 1e-9)));
  return { p: (rarer + ties) / sum(weights), midP: (rarer + ties / 2) / sum(weights) };
}

test("the exact test of small tables of any shape is the sum over all tables with their margins", () => {
  const random = seededRandom(17);
  const shapes = [
    [2, 2, 6],
    [2, 3, 5],
    [3, 2, 5],
    [2, 5, 3],
    [3, 3, 4],
    [4, 2, 4],
    [3, 4, 2],
    [4, 3, 2],
  ] as const;
  for (const [height, width, most] of shapes) {
    for (let made = 0; made < 6; made++) {
      const table = Array.from({ length: height }, () => Array.from({ length: width }, () => random.integer(most + 1)));
      table[0]![0]! += 1;
      table[1]![1]! += 1;
      const found = fisherExactTest(table);
      const expected = byDefinition(table.filter((row) => sum(row) > 0));
      assertClose(found.p, expected.p, 1e-11);
      assertClose(found.midP, expected.midP, 1e-11);
    }
  }
});

test("what is not a table of counts is refused by name", () => {
  const received = "at least two rows and two columns must hold counts; received";
  const refused: [Table, string][] = [
    [[], `${received} 0 and 0`],
    [[[0, 0]], `${received} 0 and 0`],
    [[[1, 2], [0, 0]], `${received} 1 and 2`],
    [[[1, 0], [2, 0]], `${received} 2 and 1`],
    [[[1, 2], [1.5, 0]], "each cell must be a whole number of 0 or more; received 1.5"],
  ]; // biome-ignore format: a table
  for (const [table, message] of refused) expect(() => fisherExactTest(table)).toThrow(`fisherExactTest: ${message}`);
  expect(() => twoByTwoTest([[1, 2], [3, 4], [5, 6]])).toThrow("two by two; received 3 by 2"); // biome-ignore format: a table
  expect(() => twoByTwoTest([[1, 2], [3, 4]], 1)).toThrow("twoByTwoTest: level must lie between 0 and 1"); // biome-ignore format: a table
});

test("two by two: estimate and limits solve the equations that define them, at every first cell", () => {
  const [first, second, left] = [5, 7, 6];
  for (const level of [0.9, 0.95]) {
    for (let a = 0; a <= 5; a++) {
      const found = twoByTwoTest(
        [
          [a, first - a],
          [left - a, second - left + a],
        ],
        level,
      );
      const chances = (odds: number): number[] => {
        const weights = [0, 1, 2, 3, 4, 5].map((n) => choose(first, n) * choose(second, left - n) * odds ** n);
        return weights.map((one) => one / sum(weights));
      };
      const atLeast = (odds: number) => sum(chances(odds).slice(a));
      const atMost = (odds: number) => sum(chances(odds).slice(0, a + 1));
      const mean = (odds: number) => sum(chances(odds).map((chance, n) => chance * n));
      expect(found.level).toBe(level);
      assertClose(found.pGreater, atLeast(1), 1e-12);
      assertClose(found.pLess, atMost(1), 1e-12);
      // Cornfield 1956: at each limit the tail beyond what was seen is half of what the level leaves
      if (a === 0) expect([found.lower, found.oddsRatio, found.sampleOddsRatio]).toEqual([0, 0, 0]);
      else assertClose(atLeast(found.lower), (1 - level) / 2, 1e-11);
      if (a === 5)
        expect([found.upper, found.oddsRatio, found.sampleOddsRatio]).toEqual(
          new Array(3).fill(Number.POSITIVE_INFINITY),
        );
      else assertClose(atMost(found.upper), (1 - level) / 2, 1e-11);
      if (a > 0 && a < 5) {
        assertClose(mean(found.oddsRatio), a, 1e-10);
        assertClose(found.sampleOddsRatio, (a * (1 + a)) / (5 - a) / (6 - a), 1e-12);
      }
    }
  }
  // wherever the empty cell is
  expect(twoByTwoTest([[3, 0], [2, 4]]).sampleOddsRatio).toBe(Number.POSITIVE_INFINITY); // biome-ignore format: a table
  expect(twoByTwoTest([[3, 2], [0, 4]]).sampleOddsRatio).toBe(Number.POSITIVE_INFINITY); // biome-ignore format: a table
  expect(twoByTwoTest([[3, 2], [4, 0]])).toMatchObject({ sampleOddsRatio: 0, oddsRatio: 0, lower: 0 }); // biome-ignore format: a table
  expect(twoByTwoTest([[0, 2], [2, 0]])).toMatchObject({ sampleOddsRatio: 0, oddsRatio: 0, lower: 0 }); // biome-ignore format: a table
  expect(twoByTwoTest([[2, 0], [0, 2]])).toMatchObject({ oddsRatio: Number.POSITIVE_INFINITY }); // biome-ignore format: a table
});

/** Chances of 0 to n successes. */
const binomial = (n: number, p: number): number[] =>
  Array.from({ length: n + 1 }, (_, k) => choose(n, k) * p ** k * (1 - p) ** (n - k));

test("limits of a proportion solve the equations that define them, for every count of up to 12", () => {
  const quantiles = { 0.9: 1.6448536269514722, 0.95: 1.959963984540054 }; // of the normal: any textbook's table
  for (const [key, z] of Object.entries(quantiles)) {
    const level = Number(key);
    const tail = (1 - level) / 2;
    for (let n = 1; n <= 12; n++) {
      for (let x = 0; x <= n; x++) {
        const each = [wilsonInterval, exactInterval, midPInterval, adjustedNormalInterval].map((form) =>
          form(x, n, level),
        );
        for (const one of each) expect([one.proportion, one.level]).toEqual([x / n, level]);
        const [wilson, exact, mid, adjusted] = each as [ProportionInterval, ...ProportionInterval[]];
        for (const one of [wilson, exact!, mid!]) {
          if (x === 0) expect(one.lower).toBe(0);
          if (x === n) expect(one.upper).toBe(1);
        }
        // Wilson 1927: as far from the observed share as z errors of the limit itself
        for (const p of [wilson.lower, wilson.upper]) assertClose((x / n - p) ** 2, (z * z * p * (1 - p)) / n, 1e-13);
        const atLeast = (p: number) => sum(binomial(n, p).slice(x));
        const atMost = (p: number) => sum(binomial(n, p).slice(0, x + 1));
        const half = (p: number) => binomial(n, p)[x]! / 2;
        if (x > 0) assertClose(atLeast(exact!.lower), tail, 1e-12);
        if (x < n) assertClose(atMost(exact!.upper), tail, 1e-12);
        if (x > 0) assertClose(atLeast(mid!.lower) - half(mid!.lower), tail, 1e-12);
        if (x < n) assertClose(atMost(mid!.upper) - half(mid!.upper), tail, 1e-12);
        // Agresti and Coull 1998: z²/2 of either outcome added, then the textbook's interval
        const share = (x + (z * z) / 2) / (n + z * z);
        const reach = z * Math.sqrt((share * (1 - share)) / (n + z * z));
        assertClose(adjusted!.lower, share - reach, 1e-13);
        assertClose(adjusted!.upper, share + reach, 1e-13);
      }
    }
  }
  // none or all of any number: the limit is 0 or 1 itself, not a rounding away
  for (let n = 1; n <= 400; n++) {
    expect(wilsonInterval(n, n).upper).toBe(1);
    expect(wilsonInterval(0, n).lower).toBe(0);
  }
});
