import type { CurveData } from "./curve-data.ts";
import { aboveZero, anyValue, type CurveForm } from "./curve-form.ts";
import { ratioGrid, startsByProjection } from "./starting-values.ts";

/** Half-saturation doses from far below the lowest dose above 0 to far above the highest. */
function halfDoses(data: CurveData): number[][] {
  const [lowest, highest] = positiveEnds(data);
  return ratioGrid(lowest / 100, highest * 100, 70);
}

function positiveEnds(data: CurveData): [number, number] {
  const positive = data.differentDoses.filter((dose) => dose > 0);
  return [positive[0] ?? 1, positive.at(-1) ?? 1];
}

function halfDoseObjection(half: number, data: CurveData, stopped: boolean): string | undefined {
  if (data.differentDoses[0]! < 0) return "a saturating hyperbola needs doses of 0 or more";
  const [lowest, highest] = positiveEnds(data);
  if (half > (stopped ? 10 : 1e3) * highest) {
    return "the data show no flattening: the half-saturation dose has no upper limit, and a straight line says as much";
  }
  if (half < (stopped ? 0.1 : 1e-6) * lowest) {
    return "the response flattens sooner than a hyperbola can: the half-saturation dose cannot be distinguished from 0";
  }
  return undefined;
}

/** Saturating hyperbola (Michaelis and Menten): ceiling Vm, half of it reached at dose K. */
export const hyperbola: CurveForm = {
  name: "hyperbola",
  label: "saturating hyperbola",
  equation: "y = Vm x / (K + x)",
  parameters: ["Vm", "K"],
  range: [anyValue, aboveZero],
  linear: false,
  dosesNeeded: 2,
  value: (x, p) => (x === 0 ? 0 : (p[0]! * x) / (p[1]! + x)),
  gradient: (x, p, into) => {
    const below = p[1]! + x;
    into[0] = x === 0 ? 0 : x / below;
    into[1] = x === 0 ? 0 : (-p[0]! * x) / (below * below);
  },
  starts: (data) =>
    startsByProjection(
      data,
      halfDoses(data),
      1,
      (x, [half], into) => {
        into[0] = x / (half! + x);
      },
      ([half], [ceiling]) => [ceiling!, half!],
    ),
  objection: (p, data, stopped) => halfDoseObjection(p[1]!, data, stopped),
};

/** Saturating hyperbola that starts from a at dose 0 and rises by Vm. */
export const hyperbolaWithOffset: CurveForm = {
  name: "hyperbola-with-offset",
  label: "saturating hyperbola above an intercept",
  equation: "y = a + Vm x / (K + x)",
  parameters: ["a", "Vm", "K"],
  range: [anyValue, anyValue, aboveZero],
  linear: false,
  dosesNeeded: 3,
  value: (x, p) => p[0]! + (x === 0 ? 0 : (p[1]! * x) / (p[2]! + x)),
  gradient: (x, p, into) => {
    const below = p[2]! + x;
    into[0] = 1;
    into[1] = x === 0 ? 0 : x / below;
    into[2] = x === 0 ? 0 : (-p[1]! * x) / (below * below);
  },
  starts: (data) =>
    startsByProjection(
      data,
      halfDoses(data),
      2,
      (x, [half], into) => {
        into[0] = 1;
        into[1] = x / (half! + x);
      },
      ([half], [a, rise]) => [a!, rise!, half!],
    ),
  objection: (p, data, stopped) => halfDoseObjection(p[2]!, data, stopped),
};
