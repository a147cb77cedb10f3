import type { CurveData } from "./curve-data.ts";
import { anyValue, type CurveForm, type DirectSolution, type Held } from "./curve-form.ts";
import { fitKnownColumns } from "./curve-problem.ts";
import { bestJoin } from "./join-search.ts";

const independent = 1e-12;

/**
 * A parabola up to its vertex c, level at P beyond it. The same as a + b z + q z^2 with z = min(x, c), c = -b / 2q,
 * a = P + q c^2, b = -2 q c.
 */
export const quadraticPlateau: CurveForm = {
  name: "quadratic-plateau",
  label: "quadratic to a plateau",
  equation: "y = P + q (min(x, c) - c)^2",
  parameters: ["P", "q", "c"],
  range: [anyValue, anyValue, anyValue],
  linear: false,
  dosesNeeded: 3,
  value: (x, p) => p[0]! + p[1]! * (Math.min(x, p[2]!) - p[2]!) ** 2,
  gradient: (x, p, into) => {
    const short = Math.min(x, p[2]!) - p[2]!;
    into[0] = 1;
    into[1] = short * short;
    into[2] = -2 * p[1]! * short;
  },
  starts: () => [],
  solve: (data, held) => (held ? solveHeld(data, held) : solveFree(data)),
  objection: (p, data, stopped) => {
    const highest = data.differentDoses.at(-1)!;
    const lowest = data.differentDoses[0]!;
    const [, second, third] = data.differentDoses;
    if (p[2]! <= second! + (stopped ? 0.25 : 1e-3) * (third! - second!)) {
      return "the plateau starts at or below the second dose, so the bend before it cannot be seen";
    }
    return p[2]! > highest + (stopped ? 0 : 1000) * (highest - lowest)
      ? "the data show no flattening: the join has no upper limit, and a straight line says as much"
      : undefined;
  },
  remark: (p, data) =>
    p[2]! >= data.differentDoses.at(-1)!
      ? "the plateau would start beyond the highest tested dose, so within the trial this is the quadratic"
      : undefined,
};

/** The best of a join inside the tested doses and, when the parabola peaks beyond them, the plain parabola. */
function solveFree(data: CurveData): DirectSolution | undefined {
  const { doses, differentDoses: different } = data;
  let best: DirectSolution | undefined;
  const highest = different.at(-1)!;
  const middle = (different[0]! + highest) / 2;
  const parabola = fitKnownColumns(data, 3, (i, into) => {
    const centred = doses[i]! - middle;
    into[0] = 1;
    into[1] = centred;
    into[2] = centred * centred;
  });
  const [height, slope, bend] = parabola.coefficients;
  const vertex = middle - slope! / (2 * bend!);
  if (parabola.independence > independent && vertex >= highest) {
    best = {
      parameters: [height! - slope! ** 2 / (4 * bend!), bend!, vertex],
      offsets: parabola.offsets,
      residualSumOfSquares: parabola.residualSumOfSquares,
    };
  }
  const { join } = bestJoin(data, 1, (candidate) => withJoin(data, candidate)?.residualSumOfSquares ?? Infinity);
  const inside = withJoin(data, join);
  return inside && (!best || inside.residualSumOfSquares < best.residualSumOfSquares) ? inside : best;
}

/** The fit with the join given. */
function withJoin(data: CurveData, join: number): DirectSolution | undefined {
  const fit = fitKnownColumns(data, 2, (i, into) => {
    into[0] = 1;
    into[1] = (Math.min(data.doses[i]!, join) - join) ** 2;
  });
  if (fit.independence <= independent) return undefined;
  const { coefficients, offsets, residualSumOfSquares } = fit;
  return { parameters: [...coefficients, join], offsets, residualSumOfSquares };
}

/** The fit with one parameter kept: the plateau, the bend or the join. */
function solveHeld(data: CurveData, held: Held): DirectSolution | undefined {
  if (held.index === 2) return withJoin(data, held.value);
  const short = (i: number, join: number) => (Math.min(data.doses[i]!, join) - join) ** 2;
  const fitAt = (join: number) =>
    held.index === 0
      ? fitKnownColumns(
          data,
          1,
          (i, into) => {
            into[0] = short(i, join);
          },
          () => held.value,
        )
      : fitKnownColumns(
          data,
          1,
          (_i, into) => {
            into[0] = 1;
          },
          (i) => held.value * short(i, join),
        );
  const sumAt = (join: number) => fitAt(join).residualSumOfSquares;
  const different = data.differentDoses;
  const highest = different.at(-1)!;
  const span = highest - different[0]!;
  // a join beyond the doses is a parabola; the sum over it has one minimum, sought on a widening grid
  const beyond = { ...data, differentDoses: [0, 1, 3, 10, 30, 100, 300, 1000].map((k) => highest + k * span) };
  const inner = bestJoin(data, 0, sumAt);
  const outer = bestJoin(beyond, 0, sumAt);
  const join = inner.sum <= outer.sum ? inner.join : outer.join;
  const fit = fitAt(join);
  const free = fit.coefficients[0]!;
  return {
    parameters: held.index === 0 ? [held.value, free, join] : [free, held.value, join],
    offsets: fit.offsets,
    residualSumOfSquares: fit.residualSumOfSquares,
  };
}
