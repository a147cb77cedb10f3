import type { CurveData } from "./curve-data.ts";
import { aboveZero, anyValue, type CurveForm } from "./curve-form.ts";
import { doseSpan, ratioGrid, smallestStep, startsByProjection } from "./starting-values.ts";

/** Rates from nearly no bend over the tested doses to all of it within the first step. */
function rates(data: CurveData): number[][] {
  return ratioGrid(0.01 / doseSpan(data), 25 / smallestStep(data), 60);
}

/** A rate so small or so large that the data do not fix it. */
function rateObjection(rate: number, data: CurveData, stopped: boolean): string | undefined {
  if (rate * doseSpan(data) < (stopped ? 0.1 : 1e-3)) {
    return "the data show no flattening: the rate k cannot be distinguished from 0, and a straight line says as much";
  }
  if (rate * smallestStep(data) > (stopped ? 5 : 18)) {
    return "the whole response lies between the two lowest doses: the rate k has no upper limit in these data";
  }
  return undefined;
}

/** Diminishing returns towards a ceiling a + b, from a at dose 0. */
export const asymptoticExponential: CurveForm = {
  name: "asymptotic-exponential",
  label: "diminishing-returns exponential",
  equation: "y = a + b (1 - exp(-k x))",
  parameters: ["a", "b", "k"],
  range: [anyValue, anyValue, aboveZero],
  linear: false,
  dosesNeeded: 3,
  value: (x, p) => p[0]! - p[1]! * Math.expm1(-p[2]! * x),
  gradient: (x, p, into) => {
    into[0] = 1;
    into[1] = -Math.expm1(-p[2]! * x);
    into[2] = p[1]! * x * Math.exp(-p[2]! * x);
  },
  starts: (data) =>
    startsByProjection(
      data,
      rates(data),
      2,
      (x, [rate], into) => {
        into[0] = 1;
        into[1] = -Math.expm1(-rate! * x);
      },
      ([rate], [a, b]) => [a!, b!, rate!],
    ),
  objection: (p, data, stopped) => rateObjection(p[2]!, data, stopped),
};

/**
 * Mitscherlich's law: ceiling A, rate k, and s the dose already there before any was added. The same curve as the
 * asymptotic exponential when its ceiling and its rise have one sign: A = a + b, s = ln(A / b) / k.
 */
export const mitscherlich: CurveForm = {
  name: "mitscherlich",
  label: "Mitscherlich diminishing returns",
  equation: "y = A (1 - exp(-k (x + s)))",
  parameters: ["A", "k", "s"],
  range: [anyValue, aboveZero, anyValue],
  linear: false,
  dosesNeeded: 3,
  value: (x, p) => -p[0]! * Math.expm1(-p[1]! * (x + p[2]!)),
  gradient: (x, p, into) => {
    const left = Math.exp(-p[1]! * (x + p[2]!));
    into[0] = -Math.expm1(-p[1]! * (x + p[2]!));
    into[1] = p[0]! * (x + p[2]!) * left;
    into[2] = p[0]! * p[1]! * left;
  },
  starts: (data) =>
    startsByProjection(
      data,
      rates(data),
      2,
      (x, [rate], into) => {
        into[0] = 1;
        into[1] = Math.exp(-rate! * x);
      },
      ([rate], [ceiling, fall]) => {
        const share = -fall! / ceiling!;
        return share > 0 ? [ceiling!, rate!, -Math.log(share) / rate!] : undefined;
      },
    ),
  objection: (p, data, stopped) => rateObjection(p[1]!, data, stopped),
};

/** Diminishing returns from nothing at dose 0 towards the ceiling b1. */
export const exponentialThroughOrigin: CurveForm = {
  name: "exponential-through-origin",
  label: "diminishing-returns exponential through the origin",
  equation: "y = b1 (1 - exp(-b2 x))",
  parameters: ["b1", "b2"],
  range: [anyValue, aboveZero],
  linear: false,
  dosesNeeded: 2,
  value: (x, p) => -p[0]! * Math.expm1(-p[1]! * x),
  gradient: (x, p, into) => {
    into[0] = -Math.expm1(-p[1]! * x);
    into[1] = p[0]! * x * Math.exp(-p[1]! * x);
  },
  starts: (data) =>
    startsByProjection(
      data,
      ratioGrid(0.01 / furthest(data), 25 / nearest(data), 60),
      1,
      (x, [rate], into) => {
        into[0] = -Math.expm1(-rate! * x);
      },
      ([rate], [ceiling]) => [ceiling!, rate!],
    ),
  objection: (p, data, stopped) =>
    p[1]! * furthest(data) < (stopped ? 0.1 : 1e-3)
      ? "the data show no flattening: the rate cannot be distinguished from 0, and a straight line through the origin says as much"
      : p[1]! * nearest(data) > (stopped ? 5 : 18)
        ? "every dose above 0 gives the same: the rate has no upper limit in these data"
        : undefined,
};

function furthest(data: CurveData): number {
  return Math.max(...data.differentDoses.map(Math.abs));
}

function nearest(data: CurveData): number {
  return Math.min(...data.differentDoses.map(Math.abs).filter((dose) => dose > 0));
}
