import { expect, test } from "vitest";
import { betaBinomialUpperTails } from "../../../src/statistics/distributions/beta-binomial.ts";
import { assertClose } from "../../agreement.ts";

test("upper tails of the beta-binomial: exact fractions (Python), with which SciPy 1.17.1 betabinom.sf agrees to 9 digits", () => {
  const table: [number, number, number, Record<number, number>][] = [
    [
      6,
      4.5,
      60.5,
      { 1: 0.3391588027437239, 2: 0.06675098097396125, 4: 7.537859603607828e-4, 6: 1.0320582645777324e-6 },
    ],
    [12, 0.5, 8.5, { 1: 0.3615933656692505, 2: 0.16516055510594294, 10: 6.910165150960286e-5 }],
    [40, 20.5, 300.5, { 1: 0.9168252381453533, 4: 0.2570027303140735, 10: 4.6883342596690594e-4 }],
  ];
  for (const [size, a, b, tails] of table) {
    const ours = betaBinomialUpperTails(size, a, b);
    expect(ours).toHaveLength(size + 1);
    for (const [k, tail] of Object.entries(tails)) assertClose(ours[Number(k)]!, tail, tail * 1e-12);
  }
});

test("both shapes 1 make every count as likely (Laplace's rule of succession); thousands of units do not underflow", () => {
  betaBinomialUpperTails(9, 1, 1).forEach((tail, k) => {
    assertClose(tail, 1 - k / 10, 1e-14);
  });
  const [all, , , ...rest] = betaBinomialUpperTails(5000, 900.5, 100.5);
  expect(all).toBe(1);
  expect(rest.every((tail) => tail >= 0 && tail <= 1)).toBe(true);
});

test("calls that make no sense are refused", () => {
  expect(() => betaBinomialUpperTails(2.5, 1, 1)).toThrow("size must be a whole number of 0 or more; received 2.5");
  expect(() => betaBinomialUpperTails(2, 0, 1)).toThrow("a");
  expect(() => betaBinomialUpperTails(2, 1, Number.NaN)).toThrow("b");
});
