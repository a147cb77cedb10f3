/** Values on a scale where sums are exact, so that ties between sums are ties. */
export interface ExactSums {
  /** the values times `scale`, whole where `exact` */
  values: Float64Array;
  scale: number;
  /** whether every sum of the values is exact */
  exact: boolean;
  /** sums closer than this are taken as equal: 0 where exact */
  tolerance: number;
}

/**
 * Turns typed decimals into whole numbers (2.31 into 231) where that keeps every sum below 2^53; other values stay as they
 * are and get a tolerance of the rounding a sum of them can carry.
 * @param headroom largest multiple of a sum that is compared: sums times this must stay exact too
 * @internal
 */
export function exactSums(values: ReadonlyArray<number>, headroom: number): ExactSums {
  let total = 0;
  let places = 0;
  let typed = true;
  for (const value of values) {
    total += Math.abs(value);
    const own = decimalPlaces(value);
    if (own === undefined) typed = false;
    else places = Math.max(places, own);
  }
  const scale = Number(`1e${places}`);
  if (typed && places <= 15 && total * scale * headroom < 2 ** 52) {
    return {
      values: Float64Array.from(values, (value) => Math.round(value * scale)),
      scale,
      exact: true,
      tolerance: 0,
    };
  }
  return { values: Float64Array.from(values), scale: 1, exact: false, tolerance: 1e-12 * total };
}

/** Digits after the point of a typed value; undefined for one that is the result of arithmetic. */
function decimalPlaces(value: number): number | undefined {
  if (Number.isInteger(value)) return 0;
  const text = String(value);
  const [mantissa, exponent] = text.split("e");
  const fraction = mantissa!.split(".")[1] ?? "";
  const digits = mantissa!.replace(/[-.]/g, "").replace(/^0+/, "").length;
  return digits > 15 ? undefined : Math.max(0, fraction.length - Number(exponent ?? 0));
}
