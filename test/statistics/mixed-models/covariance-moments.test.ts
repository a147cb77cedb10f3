import { describe, expect, test } from "vitest";
import { type Matrix, multiply, zeroMatrix } from "../../../src/statistics/linear-algebra/dense-matrix.ts";
import { solveGeneral } from "../../../src/statistics/linear-algebra/solve-general.ts";
import type { CovarianceMoments, RandomStructure } from "../../../src/statistics/mixed-models/covariance-moments.ts";
import { crossedGroupings } from "../../../src/statistics/mixed-models/crossed-groupings.ts";
import { type NumberedFactor, numberRandomFactors } from "../../../src/statistics/mixed-models/random-factor.ts";
import { randomStructure } from "../../../src/statistics/mixed-models/random-structure.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";
import { transpose } from "../linear-algebra/transpose.ts";

// Every shortcut is checked against the covariance matrix of all observations written out in full.

const random = seededRandom(11);
const count = 26;
const columns = [0, 1, 2].map(() => Float64Array.from({ length: count }, () => random.normal()));
const cook = Array.from({ length: count }, (_, i) => `cook ${Math.floor(Math.sqrt(i))}`);
const jar = cook.map((_, i) => `jar ${i % 3 === 0 ? 0 : i % 4}`);
const shelf = cook.map(() => `shelf ${random.integer(4)}`);

function inFull(factors: NumberedFactor[], ratios: number[]): CovarianceMoments {
  const groupings = factors.map((factor) => {
    const z = zeroMatrix(count, factor.groups);
    for (let i = 0; i < count; i++) z[i]![factor.index[i]!] = 1;
    return z;
  });
  const products = groupings.map((z) => multiply(z, transpose(z)));
  const h = zeroMatrix(count, count);
  const inverse = zeroMatrix(count, count);
  for (let i = 0; i < count; i++) {
    inverse[i]![i] = 1;
    for (let j = 0; j < count; j++) {
      h[i]![j] = products.reduce((sum, g, f) => sum + ratios[f]! * g[i]![j]!, i === j ? 1 : 0);
    }
  }
  const logDeterminant = solveGeneral(h, inverse);
  const x = transpose(columns);
  const xt: Matrix = columns;
  const seen = products.map((g) => multiply(inverse, g));
  const traceOf = (matrix: Matrix) => matrix.reduce((sum, row, k) => sum + row[k]!, 0);
  const sandwich = (middle: Matrix) => multiply(xt, multiply(middle, x));
  return {
    logDeterminant,
    cross: sandwich(inverse),
    once: seen.map((s) => sandwich(multiply(s, inverse))),
    twice: seen.map((s) =>
      seen.map((t) => {
        const full = sandwich(multiply(multiply(s, t), inverse));
        return full.map((row, i) => row.map((value, j) => (value + full[j]![i]!) / 2));
      }),
    ),
    trace: seen.map(traceOf),
    traceTwice: seen.map((s) => seen.map((t) => traceOf(multiply(s, t)))),
  };
}

function sameMatrix(a: Matrix, b: Matrix): void {
  expect(a.length).toBe(b.length);
  a.forEach((row, i) => {
    row.forEach((value, j) => {
      assertClose(value, b[i]![j]!, 1e-10);
    });
  });
}

function check(structure: RandomStructure, factors: NumberedFactor[], ratios: number[]): void {
  const ours = structure.moments(ratios);
  const full = inFull(factors, ratios);
  assertClose(ours.logDeterminant, full.logDeterminant, 1e-10);
  sameMatrix(ours.cross, full.cross);
  const searched = structure.likelihoodMoments?.(ratios) ?? ours;
  assertClose(searched.logDeterminant, full.logDeterminant, 1e-10);
  sameMatrix(searched.cross, full.cross);
  factors.forEach((_, i) => {
    sameMatrix(ours.once[i]!, full.once[i]!);
    assertClose(ours.trace[i]!, full.trace[i]!, 1e-10);
    factors.forEach((__, j) => {
      sameMatrix(ours.twice[i]![j]!, full.twice[i]![j]!);
      assertClose(ours.traceTwice[i]![j]!, full.traceTwice[i]![j]!, 1e-10);
    });
  });
}

const cases = {
  "one grouping": [{ name: "cook", groups: cook }],
  "two nested groupings": [
    { name: "cook", groups: cook },
    { name: "jar", groups: jar, within: "cook" },
  ],
  "crossed groupings": [
    { name: "cook", groups: cook },
    { name: "shelf", groups: shelf },
    { name: "jar", groups: jar, within: "cook" },
  ],
} as const;

describe.each(Object.entries(cases))("%s", (layout, factors) => {
  const numbered = numberRandomFactors("test", factors, count);
  test.each([
    [0, 0, 0],
    [0.3, 1.7, 0.6],
    [12, 0, 3],
    [0, 40, 0.1],
  ])("ratios %s, %s, %s", (...ratios) => {
    const structure = randomStructure(columns, numbered);
    expect(structure.layout).toBe(layout);
    check(structure, numbered, ratios.slice(0, numbered.length));
    check(crossedGroupings(columns, numbered), numbered, ratios.slice(0, numbered.length));
  });
});

test("nested groupings listed inner first", () => {
  const labelled = jar.map((label, i) => `${cook[i]} ${label}`);
  const numbered = numberRandomFactors(
    "test",
    [
      { name: "jar", groups: labelled },
      { name: "cook", groups: cook },
    ],
    count,
  );
  const structure = randomStructure(columns, numbered);
  expect(structure.layout).toBe("two nested groupings");
  check(structure, numbered, [0.8, 2.5]);
});
