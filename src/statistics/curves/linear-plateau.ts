import type { CurveData } from "./curve-data.ts";
import { anyValue, type CurveForm, type DirectSolution, type Held } from "./curve-form.ts";
import { fitKnownColumns } from "./curve-problem.ts";
import { bestJoin } from "./join-search.ts";

const independent = 1e-12;

/** A straight line up to the join c, level beyond it. The join is found by exact search, not by derivatives. */
export const linearPlateau: CurveForm = {
  name: "linear-plateau",
  label: "straight line to a plateau",
  equation: "y = a + b min(x, c)",
  parameters: ["a", "b", "c"],
  range: [anyValue, anyValue, anyValue],
  linear: false,
  cornered: true,
  dosesNeeded: 3,
  value: (x, p) => p[0]! + p[1]! * Math.min(x, p[2]!),
  gradient: (x, p, into) => {
    into[0] = 1;
    into[1] = Math.min(x, p[2]!);
    into[2] = x > p[2]! ? p[1]! : 0;
  },
  starts: () => [],
  solve: (data, held) => (held ? solveHeld(data, held) : solveFree(data)),
  objection: (p, data) =>
    p[2]! >= data.differentDoses.at(-1)!
      ? "no plateau within the tested doses: a straight line fits as well as any join"
      : undefined,
  remark: (p, data) =>
    p[2]! <= data.differentDoses[1]!
      ? "the plateau starts at or below the second dose, so the join is at most that and the slope at least this"
      : data.differentDoses.includes(p[2]!)
        ? "the join lies exactly on a tested dose, where its standard error is only approximate"
        : undefined,
};

/** Every interval that may hold the join is fitted by itself; joins on a dose are tried as well. */
function solveFree(data: CurveData): DirectSolution | undefined {
  const { doses, differentDoses: different } = data;
  let best: DirectSolution | undefined;
  const consider = (candidate: DirectSolution) => {
    if (!best || candidate.residualSumOfSquares < best.residualSumOfSquares * (1 - 1e-13)) best = candidate;
  };
  for (const k of candidates(data)) {
    const last = different[k]!;
    if (k + 1 < different.length) {
      const fit = fitKnownColumns(data, 3, (i, into) => {
        const rising = doses[i]! <= last;
        into[0] = rising ? 1 : 0;
        into[1] = rising ? doses[i]! : 0;
        into[2] = rising ? 0 : 1;
      });
      const [a, b, plateau] = fit.coefficients;
      // a join within rounding of a dose is on it
      const raw = (plateau! - a!) / b!;
      const join = different.find((dose) => Math.abs(raw - dose) <= 1e-12 * Math.abs(dose)) ?? raw;
      if (fit.independence > independent && join >= last && join <= different[k + 1]!) {
        consider({ parameters: [a!, b!, join], offsets: fit.offsets, residualSumOfSquares: fit.residualSumOfSquares });
      }
    }
    const atDose = withJoin(data, last);
    if (atDose) consider(atDose);
  }
  return best;
}

const fewEnough = 300;

/** Positions of the last dose before the join: all of them, or with very many doses those round the best of a coarse search. */
function candidates(data: CurveData): number[] {
  const last = data.differentDoses.length - 1;
  const all = Array.from({ length: last }, (_, k) => k + 1);
  if (last <= fewEnough) return all;
  const sumAt = (join: number) => withJoin(data, join)?.residualSumOfSquares ?? Number.POSITIVE_INFINITY;
  const { join } = bestJoin(data, 1, sumAt);
  const near = data.differentDoses.findIndex((dose) => dose >= join);
  return all.filter((k) => k === last || Math.abs(k - near) <= fewEnough / 6);
}

/** The fit with the join given. */
function withJoin(data: CurveData, join: number): DirectSolution | undefined {
  const fit = fitKnownColumns(data, 2, (i, into) => {
    into[0] = 1;
    into[1] = Math.min(data.doses[i]!, join);
  });
  if (fit.independence <= independent) return undefined;
  const { coefficients, offsets, residualSumOfSquares } = fit;
  return { parameters: [...coefficients, join], offsets, residualSumOfSquares };
}

/** The fit with one parameter kept: the intercept, the slope or the join. */
function solveHeld(data: CurveData, held: Held): DirectSolution | undefined {
  if (held.index === 2) return withJoin(data, held.value);
  const fitAt = (join: number) =>
    held.index === 0
      ? fitKnownColumns(
          data,
          1,
          (i, into) => {
            into[0] = Math.min(data.doses[i]!, join);
          },
          () => held.value,
        )
      : fitKnownColumns(
          data,
          1,
          (_i, into) => {
            into[0] = 1;
          },
          (i) => held.value * Math.min(data.doses[i]!, join),
        );
  const { join } = bestJoin(data, 0, (candidate) => fitAt(candidate).residualSumOfSquares);
  const fit = fitAt(join);
  const parameters =
    held.index === 0 ? [held.value, fit.coefficients[0]!, join] : [fit.coefficients[0]!, held.value, join];
  return { parameters, offsets: fit.offsets, residualSumOfSquares: fit.residualSumOfSquares };
}
