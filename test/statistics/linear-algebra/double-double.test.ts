import fc from "fast-check";
import { expect, test } from "vitest";
import {
  add,
  type DoubleDouble,
  divide,
  exactProduct,
  exactSum,
  multiply,
  squareRoot,
  subtract,
  toNumber,
} from "../../../src/statistics/linear-algebra/double-double.ts";
import { dotProduct, entry, subtractMultiple } from "../../../src/statistics/linear-algebra/double-double-column.ts";

const columnOfEntries = (entries: ReadonlyArray<{ high: number; low: number }>) => ({
  high: Float64Array.from(entries, ({ high }) => high),
  low: Float64Array.from(entries, ({ low }) => low),
});

// The exact answers come from whole-number arithmetic of any length (BigInt).

const whole = fc.maxSafeInteger();
const asBigInt = ({ high, low }: DoubleDouble): bigint => BigInt(high) + BigInt(low);
const pair = fc
  .tuple(whole, fc.integer({ min: -(2 ** 40), max: 2 ** 40 }))
  .map(([high, part]) => ({ high, low: (part / 2 ** 94) * high }));

test("sums and products of whole numbers are exact", () => {
  fc.assert(
    fc.property(whole, whole, (a, b) => {
      expect(asBigInt(exactSum(a, b))).toBe(BigInt(a) + BigInt(b));
      expect(asBigInt(exactProduct(a, b))).toBe(BigInt(a) * BigInt(b));
    }),
    { numRuns: 300, seed: 1 },
  );
});

test("the sum and product of three whole numbers keep 31 digits", () => {
  fc.assert(
    fc.property(whole, whole, whole, (a, b, c) => {
      fc.pre(a !== 0 && b !== 0 && c !== 0);
      const product = asBigInt(multiply(exactProduct(a, b), { high: c, low: 0 }));
      const exact = BigInt(a) * BigInt(b) * BigInt(c);
      const error = product > exact ? product - exact : exact - product;
      expect(error * 10n ** 31n <= (exact < 0n ? -exact : exact)).toBe(true);
      const sum = asBigInt(add(exactProduct(a, b), exactProduct(b, c)));
      const exactOfSum = BigInt(b) * (BigInt(a) + BigInt(c));
      const largest = [BigInt(a) * BigInt(b), BigInt(b) * BigInt(c)].map((one) => (one < 0n ? -one : one));
      const off = sum > exactOfSum ? sum - exactOfSum : exactOfSum - sum;
      expect(off * 10n ** 31n <= largest[0]! + largest[1]!).toBe(true);
    }),
    { numRuns: 300, seed: 2 },
  );
});

test("quotients and roots undo products and squares to 30 digits", () => {
  fc.assert(
    fc.property(pair, pair, (a, b) => {
      fc.pre(a.high !== 0 && b.high !== 0);
      const back = subtract(multiply(divide(a, b), b), a);
      expect(Math.abs(toNumber(back))).toBeLessThanOrEqual(1e-30 * Math.abs(a.high));
      const root = squareRoot(multiply(a, a));
      expect(Math.abs(toNumber(subtract(root, a.high < 0 ? { high: -a.high, low: -a.low } : a)))).toBeLessThanOrEqual(
        1e-30 * Math.abs(a.high),
      );
    }),
    { numRuns: 300, seed: 3 },
  );
  expect(squareRoot({ high: 0, low: 0 })).toEqual({ high: 0, low: 0 });
});

test("loops over columns do what the same steps do one by one", () => {
  const rows = fc.array(fc.tuple(whole, whole), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(rows, whole, (values, factor) => {
      const a = columnOfEntries(values.map(([x, y]) => exactProduct(x, y)));
      const b = columnOfEntries(values.map(([x, y]) => exactSum(x, y)));
      const size = values.reduce((sum, _, i) => sum + Math.abs(toNumber(multiply(entry(a, i), entry(b, i)))), 0);
      const stepwise = values.reduce((sum, _, i) => add(sum, multiply(entry(a, i), entry(b, i))), { high: 0, low: 0 });
      expect(Math.abs(toNumber(subtract(dotProduct(a, b), stepwise)))).toBeLessThanOrEqual(1e-29 * size);
      const expected = subtract(entry(a, 0), multiply({ high: factor, low: 0 }, entry(b, 0)));
      const before = Math.abs(toNumber(entry(a, 0))) + Math.abs(factor * toNumber(entry(b, 0)));
      subtractMultiple(a, { high: factor, low: 0 }, b);
      expect(Math.abs(toNumber(subtract(entry(a, 0), expected)))).toBeLessThanOrEqual(1e-30 * before);
    }),
    { numRuns: 200, seed: 4 },
  );
});
