import { anyValue, type CurveForm } from "./curve-form.ts";

/** No response: the same mean at every dose. */
export const noResponse: CurveForm = {
  name: "no-response",
  label: "no response",
  equation: "y = a",
  parameters: ["a"],
  range: [anyValue],
  linear: true,
  dosesNeeded: 1,
  value: (_x, p) => p[0]!,
  gradient: (_x, _p, into) => {
    into[0] = 1;
  },
  starts: () => [[0]],
};

/** Straight line. */
export const straightLine: CurveForm = {
  name: "straight-line",
  label: "straight line",
  equation: "y = a + b x",
  parameters: ["a", "b"],
  range: [anyValue, anyValue],
  linear: true,
  dosesNeeded: 2,
  value: (x, p) => p[0]! + p[1]! * x,
  gradient: (x, _p, into) => {
    into[0] = 1;
    into[1] = x;
  },
  starts: () => [[0, 0]],
};

/** Quadratic: a parabola, with a highest (c < 0) or lowest (c > 0) point at -b / 2c. */
export const quadratic: CurveForm = {
  name: "quadratic",
  label: "quadratic",
  equation: "y = a + b x + c x^2",
  parameters: ["a", "b", "c"],
  range: [anyValue, anyValue, anyValue],
  linear: true,
  dosesNeeded: 3,
  value: (x, p) => p[0]! + x * (p[1]! + x * p[2]!),
  gradient: (x, _p, into) => {
    into[0] = 1;
    into[1] = x;
    into[2] = x * x;
  },
  starts: () => [[0, 0, 0]],
};
