import { describe, expect, test } from "vitest";
import { customForm } from "../../../src/statistics/curves/curve-form.ts";
import { type FitCurveInput, fitCurve } from "../../../src/statistics/curves/fit-curve.ts";
import { expectAgreement } from "../../agreement.ts";
import { reference } from "./fixtures.ts";

/** Data and certified values of further NIST sets, small enough to be remembered; every certified figure has 11 digits. */
const misra = reference<{ data: { x: number[]; y: number[] } }>("nist-Misra1a").data;
const boxBod = { doses: [1, 2, 3, 5, 7, 10], responses: [109, 149, 149, 191, 213, 224] };
const rat42 = {
  doses: [9, 14, 21, 28, 42, 57, 63, 70, 79],
  responses: [8.93, 10.8, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08],
};
const danWood = {
  doses: [1.309, 1.471, 1.49, 1.565, 1.611, 1.68],
  responses: [2.138, 3.421, 3.597, 4.34, 4.882, 5.66],
};
const mgh09 = {
  doses: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
  responses: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
};
const power = customForm({
  name: "power",
  parameters: ["b1", "b2"],
  value: (x, p) => p[0]! * x ** p[1]!,
  gradient: (x, p, into) => {
    into[0] = x ** p[1]!;
    into[1] = p[0]! * x ** p[1]! * Math.log(x);
  },
  starts: [[1, 5]],
});
const kowalik = customForm({
  name: "kowalik-osborne",
  parameters: ["b1", "b2", "b3", "b4"],
  value: (x, p) => (p[0]! * (x * x + x * p[1]!)) / (x * x + x * p[2]! + p[3]!),
  gradient: (x, p, into) => {
    const above = x * x + x * p[1]!;
    const below = x * x + x * p[2]! + p[3]!;
    into[0] = above / below;
    into[1] = (p[0]! * x) / below;
    into[2] = (-p[0]! * above * x) / below ** 2;
    into[3] = (-p[0]! * above) / below ** 2;
  },
  starts: [[25, 39, 41.5, 39]],
});

const cases: [string, FitCurveInput, (p: number[]) => number[], number[], number][] = [
  [
    "BoxBOD, start 1 (runs off, then self-started)",
    { form: "exponential-through-origin", ...boxBod, start: [1, 1] },
    (p) => p,
    [213.80940889, 0.54723748542],
    1168.0088766,
  ],
  [
    "BoxBOD, start 2",
    { form: "exponential-through-origin", ...boxBod, start: [100, 0.75] },
    (p) => p,
    [213.80940889, 0.54723748542],
    1168.0088766,
  ],
  [
    "BoxBOD, self-started",
    { form: "exponential-through-origin", ...boxBod },
    (p) => p,
    [213.80940889, 0.54723748542],
    1168.0088766,
  ],
  [
    "Misra1d, self-started",
    { form: "hyperbola", doses: misra.x, responses: misra.y },
    ([ceiling, half]) => [ceiling!, 1 / half!],
    [437.36970754, 3.0227324449e-4],
    0.056419295283,
  ],
  [
    "Rat42, self-started",
    { form: "logistic", ...rat42 },
    ([ceiling, middle, width]) => [ceiling!, middle! / width!, 1 / width!],
    [72.462237576, 2.6180768402, 0.067359200066],
    8.0565229338,
  ],
  ["DanWood, start 1", { form: power, ...danWood }, (p) => p, [0.76886226176, 3.8604055871], 4.3173084083e-3],
  [
    "MGH09, start 1",
    { form: kowalik, ...mgh09 },
    (p) => p,
    [0.19280693458, 0.19128232873, 0.12305650693, 0.13606233068],
    3.0750560385e-4,
  ],
];

describe("further NIST nonlinear sets (data and certified values from memory)", () => {
  test.each(cases)("%s", (dataset, input, asCertified, certified, sum) => {
    const fit = fitCurve({ ...input, profile: false });
    if (fit.kind !== "fitted") throw new Error(fit.reason);
    const ours = asCertified(fit.estimates);
    expect(ours.length).toBe(certified.length);
    const row = (statistic: string) => ({
      method: `nonlinear least squares, ${fit.label}`,
      dataset: `NIST ${dataset}`,
      statistic,
      source: "NIST Statistical Reference Datasets (from memory)",
    });
    expectAgreement(
      row("parameters"),
      ours.map((value, j) => [value, certified[j]!]),
      9,
    );
    expect(fit.remarks.some((remark) => remark.includes("given starting values failed"))).toBe(
      dataset.includes("runs off"),
    );
    expectAgreement(row("residual sum of squares"), [[fit.residualSumOfSquares, sum]], 9);
  });
});
