import type { CurveData } from "./curve-data.ts";
import { aboveZero, anyValue, type CurveForm } from "./curve-form.ts";
import { doseSpan, startsByProjection } from "./starting-values.ts";

/** Middles over (and a little beyond) the tested doses, crossed with widths, and with exponents where asked. */
function grid(data: CurveData, exponents: ReadonlyArray<number>): number[][] {
  const span = doseSpan(data);
  const points: number[][] = [];
  for (const exponent of exponents) {
    for (const width of [0.02, 0.04, 0.08, 0.15, 0.25, 0.5, 1]) {
      for (let k = -4; k <= 20; k++) points.push([data.differentDoses[0]! + (span * k) / 16, width * span, exponent]);
    }
  }
  return points;
}

const rise = (z: number): number => 1 / (1 + Math.exp(-z));

function widthObjection(width: number, middle: number, data: CurveData, stopped: boolean): string | undefined {
  if (Math.abs(width) < doseSpan(data) * (stopped ? 0.02 : 1e-4))
    return "the response is a single jump: its width cannot be distinguished from 0";
  if (Math.abs(middle - data.differentDoses[0]!) > (stopped ? 3 : 100) * doseSpan(data)) {
    return "the middle of the rise lies far outside the tested doses: the data show no S-shape";
  }
  return undefined;
}

/** Logistic growth curve from 0 to the ceiling A; half-way at dose m. */
export const logistic: CurveForm = {
  name: "logistic",
  label: "logistic",
  equation: "y = A / (1 + exp((m - x) / s))",
  parameters: ["A", "m", "s"],
  range: [anyValue, anyValue, aboveZero],
  linear: false,
  dosesNeeded: 3,
  value: (x, p) => p[0]! * rise((x - p[1]!) / p[2]!),
  gradient: (x, p, into) => {
    const z = (x - p[1]!) / p[2]!;
    const share = rise(z);
    const steep = (p[0]! * share * (1 - share)) / p[2]!;
    into[0] = share;
    into[1] = -steep;
    into[2] = -steep * z;
  },
  starts: (data) =>
    startsByProjection(
      data,
      grid(data, [1]),
      1,
      (x, [middle, width], into) => {
        into[0] = rise((x - middle!) / width!);
      },
      ([middle, width], [ceiling]) => [ceiling!, middle!, width!],
      4,
    ),
  objection: (p, data, stopped) => widthObjection(p[2]!, p[1]!, data, stopped),
};

/** Logistic curve between a floor and a ceiling. */
export const logisticWithFloor: CurveForm = {
  name: "logistic-with-floor",
  label: "logistic between a floor and a ceiling",
  equation: "y = a + b / (1 + exp((m - x) / s))",
  parameters: ["a", "b", "m", "s"],
  range: [anyValue, anyValue, anyValue, aboveZero],
  linear: false,
  dosesNeeded: 4,
  value: (x, p) => p[0]! + p[1]! * rise((x - p[2]!) / p[3]!),
  gradient: (x, p, into) => {
    const z = (x - p[2]!) / p[3]!;
    const share = rise(z);
    const steep = (p[1]! * share * (1 - share)) / p[3]!;
    into[0] = 1;
    into[1] = share;
    into[2] = -steep;
    into[3] = -steep * z;
  },
  starts: (data) =>
    startsByProjection(
      data,
      grid(data, [1]),
      2,
      (x, [middle, width], into) => {
        into[0] = 1;
        into[1] = rise((x - middle!) / width!);
      },
      ([middle, width], [floor, height]) => [floor!, height!, middle!, width!],
      4,
    ),
  objection: (p, data, stopped) => widthObjection(p[3]!, p[2]!, data, stopped),
};

/** Richards' growth curve: a logistic whose rise need not be symmetric. */
export const richards: CurveForm = {
  name: "richards",
  label: "Richards growth curve",
  equation: "y = b1 / (1 + exp(b2 - b3 x))^(1 / b4)",
  parameters: ["b1", "b2", "b3", "b4"],
  range: [anyValue, anyValue, anyValue, aboveZero],
  linear: false,
  dosesNeeded: 4,
  value: (x, p) => p[0]! * Math.exp(-softPlus(p[1]! - p[2]! * x) / p[3]!),
  gradient: (x, p, into) => {
    const z = p[1]! - p[2]! * x;
    const soft = softPlus(z);
    const share = Math.exp(-soft / p[3]!);
    const steep = (-p[0]! * share * rise(z)) / p[3]!;
    into[0] = share;
    into[1] = steep;
    into[2] = -x * steep;
    into[3] = (p[0]! * share * soft) / (p[3]! * p[3]!);
  },
  starts: (data) =>
    startsByProjection(
      data,
      grid(data, [0.25, 0.5, 1, 2, 4]),
      1,
      (x, [middle, width, exponent], into) => {
        into[0] = Math.exp(-softPlus((middle! - x) / width!) / exponent!);
      },
      ([middle, width, exponent], [ceiling]) => [ceiling!, middle! / width!, 1 / width!, exponent!],
      6,
    ),
};

/** ln(1 + exp(z)) without overflow. */
function softPlus(z: number): number {
  return z > 0 ? z + Math.log1p(Math.exp(-z)) : Math.log1p(Math.exp(z));
}
