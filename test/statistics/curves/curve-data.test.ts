import { expect, test } from "vitest";
import { curveData, fillOffsetColumns, offsetCount } from "../../../src/statistics/curves/curve-data.ts";
import { responseSurface } from "../../../src/statistics/curves/response-surface.ts";

const doses = [6, 3, 6, 9];
const responses = [9, 5, 8, 12];

test("columns of a curve: doses in order, blocks numbered as they come, weights by their roots", () => {
  const plain = curveData("test", { doses, responses });
  expect([
    plain.differentDoses,
    [...plain.rootWeights],
    plain.blockNames,
    [...plain.blockOf],
    offsetCount(plain),
  ]).toEqual([[3, 6, 9], [1, 1, 1, 1], [], [], 0]);
  const blocked = curveData("test", { doses, responses, weights: [4, 1, 9, 1], blocks: ["b", "a", "b", 7] });
  expect([[...blocked.rootWeights], blocked.blockNames, [...blocked.blockOf], offsetCount(blocked)]).toEqual([
    [2, 1, 3, 1],
    ["b", "a", "7"],
    [0, 1, 0, 2],
    2,
  ]);
  // each block against the last, by the roots of the weights
  const columns = [0, 1, 2].map(() => new Float64Array(4));
  fillOffsetColumns(blocked, columns, 1);
  expect(columns.map((column) => [...column])).toEqual([
    [0, 0, 0, 0],
    [2, 0, 3, -1],
    [0, 1, 0, -1],
  ]);
  // one block alone is none
  const one = curveData("test", { doses, responses, blocks: ["a", "a", "a", "a"] });
  expect([one.blockNames, [...one.blockOf], offsetCount(one)]).toEqual([[], [], 0]);
});

test("columns that do not fit one another are refused by name", () => {
  const refused: [Partial<Parameters<typeof curveData>[1]>, string][] = [
    [{ doses: [] }, "test: doses must not be empty"],
    [{ responses: [1] }, "doses and responses must be equally long; received 4 and 1"],
    [{ doses: [1, 2, 3, Number.NaN] }, "doses must be finite"],
    [{ responses: [1, 2, 3, Number.NaN] }, "responses must be finite"],
    [{ weights: [1] }, "doses and weights must be equally long"],
    [{ weights: [1, 1, 1, Number.NaN] }, "weights must be finite"],
    [{ weights: [1, 1, 0, 1] }, "weights must be above 0; received 0"],
    [{ blocks: ["a"] }, "doses and blocks must be equally long"],
  ];
  for (const [wrong, message] of refused)
    expect(() => curveData("test", { doses, responses, ...wrong })).toThrow(message);
});

test("as many values as parameters leave nothing to measure the scatter with; one more does", () => {
  const x1 = [-1, -1, 1, 1, 0, 0, 1];
  const x2 = [-1, 1, -1, 1, 0, 1, 0];
  const values = [1, 3, 2, 6, 4, 5, 4.5];
  const six = responseSurface({ x1: x1.slice(0, 6), x2: x2.slice(0, 6), responses: values.slice(0, 6) });
  expect(six).toEqual({
    kind: "not-fitted",
    reason: "6 values for 6 parameters leave nothing to measure the scatter with",
  });
  expect(responseSurface({ x1, x2, responses: values })).toMatchObject({ kind: "fitted", degreesOfFreedom: 1 });
});
