import { expect, test } from "vitest";
import { fUpperTail } from "../../../src/statistics/distributions/f.ts";
import { additiveFit } from "../../../src/statistics/groups/additive-fit.ts";
import { brownForsytheMeans } from "../../../src/statistics/groups/brown-forsythe-means.ts";
import { midranks } from "../../../src/statistics/groups/midranks.ts";
import { slopeWithinBlocks } from "../../../src/statistics/groups/slope-within-blocks.ts";
import { sphericity } from "../../../src/statistics/groups/sphericity.ts";
import { assertClose } from "../../agreement.ts";

const sum = (values: ReadonlyArray<number>): number => values.reduce((all, one) => all + one, 0);
const mean = (values: ReadonlyArray<number>): number => sum(values) / values.length;

test("midranks: ties share the mean of their ranks (any textbook)", () => {
  expect(midranks([])).toEqual([]);
  expect(midranks([7])).toEqual([1]);
  expect(midranks([30, -10, 20])).toEqual([3, 1, 2]);
  expect(midranks([5, 1, 5, 5, 1, -3])).toEqual([5, 2.5, 5, 5, 2.5, 1]);
  expect(midranks([2, 2, 2, 2])).toEqual([2.5, 2.5, 2.5, 2.5]);
});

test("means of groups by Brown and Forsythe's formula; far from 0 as well", () => {
  const groups = [
    [4, 6, 9],
    [7, 8],
    [12, 15, 11, 10],
  ];
  const all = groups.flat();
  const variance = (values: number[]) => sum(values.map((one) => (one - mean(values)) ** 2)) / (values.length - 1);
  const between = sum(groups.map((own) => own.length * (mean(own) - mean(all)) ** 2));
  const parts = groups.map((own) => (1 - own.length / all.length) * variance(own));
  const df = sum(parts) ** 2 / sum(parts.map((part, i) => part ** 2 / (groups[i]!.length - 1)));
  for (const far of [0, 1e7]) {
    const found = brownForsytheMeans(groups.map((own) => own.map((one) => one + far)));
    assertClose(found.f, between / sum(parts), 1e-7);
    assertClose(found.denominatorDf, df, 1e-7);
    assertClose(found.p, fUpperTail(between / sum(parts), 2, df), 1e-8);
    expect(found.numeratorDf).toBe(2);
  }
  expect(() => brownForsytheMeans([[1, 2]])).toThrow("at least 2 groups are needed; received 1");
  expect(() => brownForsytheMeans([[1, 2], [3]])).toThrow("group 2 needs at least 2 values; received 1");
  expect(() => brownForsytheMeans([[1, Number.NaN], [3, 4]])).toThrow("group 1 must be finite numbers; value 2 is NaN"); // biome-ignore format: groups
  expect(() => brownForsytheMeans([[1, 1], [3, 3]])).toThrow("the values of at least one group must differ"); // biome-ignore format: groups
  expect(brownForsytheMeans([[1, 1], [3, 5]]).denominatorDf).toBe(1); // biome-ignore format: groups
});

test("slope within blocks: pooled by squares; Bell and McCaffrey's error and degrees of freedom by their formulas", () => {
  const blocks = [
    { amount: [0, 5, 10], value: [3, 6, 8] },
    { amount: [0, 0, 10, 10], value: [1, 2, 9, 8] },
    { amount: [5, 10], value: [4, 10] },
  ];
  const own = blocks.map(({ amount, value }) => {
    const x = amount.map((one) => one - mean(amount));
    const square = sum(x.map((one) => one ** 2));
    return { square, slope: sum(x.map((one, i) => one * value[i]!)) / square };
  });
  const squares = sum(own.map(({ square }) => square));
  const slope = sum(own.map((one) => one.square * one.slope)) / squares;
  const w = own.map(({ square }) => square / squares);
  const a = w.map((weight) => weight ** 2 / (1 - weight));
  const variance = sum(own.map((one, g) => a[g]! * (one.slope - slope) ** 2));
  const found = slopeWithinBlocks(blocks)!;
  assertClose(found.slope, slope, 1e-14);
  assertClose(found.standardError, Math.sqrt(variance), 1e-14);
  assertClose(
    found.degreesOfFreedom,
    1 / (sum(w.map((one) => one ** 2)) + sum(a) ** 2 - sum(a.map((one) => one ** 2))),
    1e-12,
  );
  assertClose(found.meanSquare, variance * squares, 1e-10);
  assertClose(found.sumOfSquares, squares, 1e-12);
  expect(found.blocks).toBe(3);
  // equal blocks: one fewer than there are
  const equal = [1, 4, 2, 9].map((rise) => ({ amount: [0, 1], value: [0, rise] }));
  assertClose(slopeWithinBlocks(equal)!.degreesOfFreedom, 3, 1e-12);
  // amounts that are alike, whatever their size and rounding, say nothing
  for (const amount of [[0.1, 0.1, 0.1], [1e6 / 7, 1e6 / 7, 1e6 / 7], [0, 0, 0]]) // biome-ignore format: a table
    expect(slopeWithinBlocks([...blocks, { amount, value: [1, 5, 9] }])).toEqual(found);
  expect(slopeWithinBlocks([blocks[0]!, { amount: [3, 3], value: [1, 2] }])).toBeUndefined();
  expect(slopeWithinBlocks([])).toBeUndefined();
  expect(() => slopeWithinBlocks([{ amount: [1], value: [1, 2] }])).toThrow("amount and value must be equally long");
  expect(() => slopeWithinBlocks([{ amount: [Number.NaN], value: [1] }])).toThrow("amount must be finite");
  expect(() => slopeWithinBlocks([{ amount: [1], value: [Number.NaN] }])).toThrow("value must be finite");
});

test("a full table: level means, their squares and error as in any textbook; holes that part it are seen", () => {
  const table = [
    [3, 5, 10],
    [2, 7, 9],
    [4, 4, 12],
    [1, 6, 11],
  ];
  const cells = table.flatMap((row, block) => row.map((value, level) => ({ block, level, value })));
  const grand = mean(table.flat());
  const levels = [0, 1, 2].map((level) => mean(table.map((row) => row[level]!)) - grand);
  const fit = additiveFit(cells, 4, 3)!;
  levels.forEach((effect, i) => {
    assertClose(fit.effects[i]!, effect, 1e-12);
  });
  const residual = sum(table.flatMap((row) => row.map((value, i) => (value - mean(row) - levels[i]!) ** 2)));
  assertClose(fit.residual.sumOfSquares, residual, 1e-10);
  assertClose(fit.levels.sumOfSquares, 4 * sum(levels.map((effect) => effect ** 2)), 1e-10);
  expect([fit.residual.degreesOfFreedom, fit.levels.degreesOfFreedom]).toEqual([6, 2]);
  assertClose(fit.varianceOf([1, -1, 0]), 2 / 4, 1e-12);
  assertClose(fit.varianceOf([0.5, 0.5, -1]), 1.5 / 4, 1e-12);
  // blocks that share no level cannot be compared; a single level has nothing to compare
  expect(additiveFit([cells[0]!, cells[1]!, { block: 1, level: 2, value: 4 }], 2, 3)).toBeUndefined();
  const one = additiveFit([cells[0]!, cells[3]!], 2, 1)!;
  expect([one.effects, one.residual, one.levels]).toEqual([
    [0],
    { degreesOfFreedom: 0, sumOfSquares: 0 },
    { degreesOfFreedom: 0, sumOfSquares: 0 },
  ]);
  for (const place of [{ block: 4, level: 0 }, { block: -1, level: 0 }, { block: 0, level: 3 }, { block: 0, level: -1 }]) // biome-ignore format: places
    expect(() => additiveFit([...cells, { ...place, value: 1 }], 4, 3)).toThrow(
      `received block ${place.block}, level ${place.level}`,
    );
  expect(() => additiveFit([{ block: 0, level: 0, value: Number.NaN }], 1, 1)).toThrow(
    "values must be finite; received NaN",
  );
});

test("sphericity: 1 for two levels and where nothing varies, the least where one difference does all", () => {
  expect(sphericity([[1, 2], [4, 9], [3, 3]])).toEqual({ greenhouseGeisser: 1, huynhFeldt: 1 }); // biome-ignore format: blocks
  expect(sphericity([[1, 2, 3], [2, 3, 4]])).toEqual({ greenhouseGeisser: 1, huynhFeldt: 1 }); // biome-ignore format: blocks
  // the levels move along one line: 1 / (levels - 1)
  const line = [1, 2, 5, 9].map((size) => [size, 2 * size, 4 * size]);
  assertClose(sphericity(line).greenhouseGeisser, 0.5, 1e-12);
  // Huynh and Feldt 1976: (n (k - 1) e - 2) / ((k - 1) (n - 1 - (k - 1) e)) with n 4, k 3, e 1/2
  assertClose(sphericity(line).huynhFeldt, (4 * 2 * 0.5 - 2) / (2 * (4 - 1 - 2 * 0.5)), 1e-10);
  for (const blocks of [[[1, 2]], [[1], [2]], [[1, 2], [1, 2, 3]], []]) // biome-ignore format: blocks
    expect(() => sphericity(blocks)).toThrow("at least 2 blocks of the same 2 or more levels are needed");
});
