import { expect, test } from "vitest";
import { weighedCells } from "../../../src/decisions/dose/cell-sums.ts";
import { curveShapes } from "../../../src/decisions/dose/curve-shapes.ts";
import { doseGrid } from "../../../src/decisions/dose/dose-grid.ts";
import type { DoseTray } from "../../../src/decisions/dose/index.ts";
import { testedDoses } from "../../../src/decisions/dose/tested-doses.ts";
import { yieldMixture } from "../../../src/decisions/dose/yield-mixture.ts";
import { cholesky } from "../../../src/statistics/linear-algebra/cholesky.ts";
import { assertClose } from "../../agreement.ts";
import { grownTrays, twelveTrays } from "./dose-books.ts";

/**
 * A component by the textbook: every tray a row, the whole covariance matrix of the trays written out with the exact kernel,
 * log density of the trays with the tray variance integrated out. Nothing of the cells, the closed inverses or the few
 * columns of the program is used. What else was varied is a flat effect whose levels add up to 0, and each cook's own.
 */
function byTrays(
  trays: ReadonlyArray<DoseTray>,
  shapeAt: (dose: number) => number,
  [amplitude, cookRatio, cellRatio]: readonly [number, number, number],
): { rss: number; logDensity: number } {
  const doses = trays.map(({ dose }) => dose);
  const range = Math.max(...doses) - Math.min(...doses);
  const kernel = (a: number, b: number): number =>
    shapeAt(a) * shapeAt(b) + 0.09 * Math.exp(-(((a - b) / range / 0.5) ** 2) / 2);
  const levels = [...new Set(trays.map(({ other = "" }) => other))].sort();
  const last = levels.length - 1;
  const contrasts = ({ other = "" }: DoseTray): number[] =>
    levels.slice(0, last).map((level) => (other === levels[last] ? -1 : Number(other === level)));
  const covariance = trays.map((one, i) =>
    Float64Array.from(trays, (other, j) => {
      let value = amplitude ** 2 * kernel(one.dose, other.dose) + 1e4;
      const [own, theirs] = [contrasts(one), contrasts(other)];
      value += 1e4 * own.reduce((sum, contrast, k) => sum + contrast * theirs[k]!, 0);
      if (one.cook === other.cook) {
        value += cookRatio + (one.dose === other.dose ? cellRatio : 0);
        if (last > 0 && one.other === other.other) value += cellRatio;
      }
      return value + (i === j ? 1 : 0);
    }),
  );
  const mean = trays.reduce((sum, { grams }) => sum + grams!, 0) / trays.length;
  const z = trays.map(({ grams }) => grams! - mean);
  const factor = cholesky(covariance)!;
  const solved = factor.solve(z);
  const rss = z.reduce((sum, value, i) => sum + value * solved[i]!, 0);
  return { rss, logDensity: -factor.logDeterminant / 2 - ((trays.length - 1) / 2) * Math.log(rss) };
}

const uneven = grownTrays({
  doses: [2, 5, 6, 11],
  cooks: 5,
  perCell: 3,
  grams: (dose) => 25 + 3 * dose - 0.2 * dose * dose,
  seed: 4,
}).filter((_, row) => row % 4 !== 1);

const beside = uneven.map((tray, row) => ({ ...tray, other: ["bran", "hulls", "none"][(row * row + row) % 3]! }));

test.each([
  ["twelve trays", twelveTrays],
  ["uneven cells, four doses, five cooks", uneven],
  ["uneven cells with three levels of something else", beside],
])("every component of %s agrees with the covariance of its trays", (_, trays) => {
  const tested = testedDoses(trays, 1);
  const grid = doseGrid(tested.doses, 1);
  const { components } = yieldMixture(weighedCells(tested), tested.doses, grid);
  const shapes = curveShapes(tested.doses, tested.doses);
  expect(components.length).toBe((tested.doses.length + 23) * 4 * 3 * 4);
  const some = components.filter((_, at) => at % 37 === 0);
  const first = some[0]!;
  const compared = some.map(({ block, shape, rss, logWeight }) => {
    const values = shapes.find(({ name }) => name === shape.name)!.values;
    const direct = byTrays(trays, (dose) => values[tested.doses.indexOf(dose)]!, [
      block.amplitude,
      block.cookRatio,
      block.cellRatio,
    ]);
    // the 1e4 of the mean makes the tray form lose some digits
    assertClose(rss / direct.rss, 1, 1e-6);
    const prior = Math.log(shape.weight) + logPriorOf(block);
    return logWeight - prior - direct.logDensity;
  });
  // cells and trays differ by one constant: the determinant of the means of cells
  for (const difference of compared) assertClose(difference, compared[0]!, 1e-4);
  expect(first.weight).toBeGreaterThanOrEqual(0);
});

/** Prior weights as printed in Gramwright's own specification. */
function logPriorOf({ amplitude, cellRatio }: { amplitude: number; cellRatio: number }): number {
  const size = new Map([
    [0.5, 0.2],
    [1, 0.3],
    [2, 0.3],
    [4, 0.2],
  ]).get(amplitude)!;
  const cell = new Map([
    [0, 0.2],
    [0.1, 0.25],
    [0.3, 0.25],
    [1, 0.3],
  ]).get(cellRatio)!;
  return Math.log(size * cell) - Math.log(3);
}
