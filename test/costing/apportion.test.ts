import fc from "fast-check";
import { expect, test } from "vitest";
import { minorUnits, roundToAddUp } from "../../src/costing/apportion.ts";
import { compensatedSum, compensatedSumOver } from "../../src/costing/compensated-sum.ts";

const money = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const decimals = fc.constantFrom(0, 2, 3);

test("halves go away from zero, whatever the storage of the decimal", () => {
  expect([minorUnits(1.005, 2), minorUnits(-1.005, 2), minorUnits(0.125, 2), minorUnits(2.5, 0)]).toEqual([
    101, -101, 13, 3,
  ]);
  expect(Object.is(minorUnits(-0.001, 2), 0)).toBe(true);
  expect(() => minorUnits(Number.NaN, 2)).toThrow("minorUnits: amount must be a finite number; received NaN");
  for (const places of [2.5, -1, 7])
    expect(() => minorUnits(1, places)).toThrow(`decimals must be a whole number from 0 to 6; received ${places}`);
  expect([minorUnits(1.5, 0), minorUnits(1.5, 6)]).toEqual([2, 1_500_000]);
  expect(() => minorUnits(1e15, 2)).toThrow("below 2^53");
});

test("thirds: 1.01 + 1.00 + 1.00, arithmetic", () => {
  expect(roundToAddUp([1.004, 1.004, 1.004], 2)).toEqual({ parts: [101, 100, 100], total: 301 });
  expect(roundToAddUp([], 2)).toEqual({ parts: [], total: 0 });
  // the noise of a large amount is taken from it, not from nothing
  expect(roundToAddUp([999_999_999_999.991, 339_949_999.9949, 0], 2).parts[2]).toBe(0);
});

test("the classic largest-remainder rule: shares 47, 16, 15.8, 12, 6.1, 3.1 % of 10 seats, arithmetic", () => {
  expect(roundToAddUp([4.7, 1.6, 1.58, 1.2, 0.61, 0.31], 0).parts).toEqual([5, 2, 1, 1, 1, 0]);
});

test("rounded amounts add up to the rounded sum, and none is off by a whole minor unit", () => {
  fc.assert(
    fc.property(fc.array(money, { minLength: 1, maxLength: 40 }), decimals, (amounts, places) => {
      const { parts, total } = roundToAddUp(amounts, places);
      expect(parts.reduce((sum, part) => sum + part, 0)).toBe(total);
      expect(total).toBe(minorUnits(compensatedSum(amounts), places));
      parts.forEach((part, index) => {
        expect(Math.abs(part - amounts[index]! * 10 ** places)).toBeLessThan(1 + 1e-6);
      });
    }),
  );
});

test("amounts of millions are rounded no further off than others", () => {
  // three times a third of a cent over ten million: the sum is a whole cent, and one of them has it
  const third = 10_000_000.003333;
  expect(roundToAddUp([third, third, third], 2)).toEqual({
    parts: [1_000_000_001, 1_000_000_000, 1_000_000_000],
    total: 3_000_000_001,
  });
  expect(roundToAddUp([third + 0.004, -third], 2).parts).toEqual([1_000_000_001, -1_000_000_001]);
  expect(roundToAddUp([-1e-13, 1], 2).parts).toEqual([0, 100]);
  expect(roundToAddUp([-0, 1], 2).parts).toEqual([0, 100]);
});

test("a forced total is met, and impossible calls are named", () => {
  expect(roundToAddUp([1.5, 1.5], 0, 4).parts).toEqual([2, 2]);
  expect(roundToAddUp([1.5, 1.5], 0, 2).parts).toEqual([1, 1]);
  // what is missing goes to the largest remainders first, the earlier of two alike; what is too much is taken the other way
  expect(roundToAddUp([5.2, 5.7, 5.2], 0, 17).parts).toEqual([6, 6, 5]);
  expect(roundToAddUp([5.2, 5.7, 5.2], 0, 14).parts).toEqual([5, 5, 4]);
  expect(roundToAddUp([5, 5], 0, 13).parts).toEqual([7, 6]);
  expect(roundToAddUp([5, 5, 5], 0, 11).parts).toEqual([4, 4, 3]);
  expect(roundToAddUp([5, 0, -5], 0, 1).parts).toEqual([6, 0, -5]);
  expect(roundToAddUp([0, 5, 0], 0, 8)).toEqual({ parts: [0, 8, 0], total: 8 });
  expect(roundToAddUp([0, 0], 0, 0)).toEqual({ parts: [0, 0], total: 0 });
  expect(() => roundToAddUp([0, 0], 0, 1)).toThrow("forcedTotal must be a whole number that the amounts can make");
  expect(() => roundToAddUp([1, 1], 0, 2.5)).toThrow("forcedTotal");
  expect(() => roundToAddUp([], 0, 2)).toThrow("forcedTotal");
});

test("a compensated sum keeps what plain addition loses", () => {
  expect(compensatedSum([1e16, 1, -1e16])).toBe(1);
  expect(compensatedSum([1, 1e16, -1e16])).toBe(1);
  expect(compensatedSum([])).toBe(0);
  expect(compensatedSumOver([2, 0, 1], (place) => [1, -1e16, 1e16][place]!)).toBe(1);
  expect(compensatedSumOver([1, 1], (place) => [5, 0.5][place]!)).toBe(1);
});
